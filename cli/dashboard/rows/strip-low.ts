/** The strip of a low screen: a column a plan, with usual and bad week only. */

import { padEnd, widthOf } from '../../render/width.js';
import { shortDate } from '../../words/dates.js';
import type { Strip } from '../state/strip.js';
import type { Meaning, Row } from '../theme.js';
import { cut, fittedRight, fittedRow, named, span } from './rows.js';
import {
  aboutIn,
  type Cells,
  cellsOf,
  laterWeeks,
  pointerOf,
  progressOf,
  type StripInput,
  WEEK_WORDS,
  weekFigure,
} from './strip-cells.js';

/** What a strip of columns leaves out, beside it. */
const LEFT_OUT = ['idle holes, what', 'holds each back:', 'from 80 x 24 on'];
const LEFT_OUT_SHORT = ['title, idle,', 'held, season', 'at 80 x 24'];
/** The same in one line, where the other two tell something else. */
const LEFT_OUT_ONCE = 'more at 80x24';
const LEFT_OUT_ONCE_SHORT = 'more: 80x24';

/** What stands over counts of days in place of their names. */
const DAY_COUNTS = { cadence: 'Days sown', visits: 'Days a wk' } as const;

/**
 * The labels of plans in so many columns, and what they are about: how many days a week, where names of days have no room.
 * @returns null where names have room, or counts do not tell the plans apart
 */
function dayCounts(
  { about, rows }: Strip,
  labels: readonly string[],
  room: number,
): { title: string; labels: string[] } | null {
  if (about.kind !== 'visits' && about.kind !== 'cadence') return null;
  if (labels.every((label) => widthOf(label) <= room)) return null;
  const counts = rows.map(({ scenario: { visits, crops } }, i) => {
    const [sow] = crops.map((crop) => crop.sow);
    const days = about.kind === 'visits' ? visits : sow !== undefined && 'on' in sow ? sow.on : null;
    return typeof days === 'object' && days !== null ? String(days.length) : labels[i]!;
  });
  return new Set(counts).size === rows.length ? { title: DAY_COUNTS[about.kind], labels: counts } : null;
}

/** A column a plan: its name, usual week, bad week. */
export function columnRows({ state, width, signs }: StripInput): Row[] {
  const { strip, scenario } = state;
  const plans = strip.rows.map((row) => cellsOf(row, state, signs));
  const first = 10;
  const { known, least } = progressOf(strip);
  const isPartial = known.length > 0 && strip.seasons !== null && least < strip.seasons;
  const [leftOut, once] = width >= 74 ? [LEFT_OUT, LEFT_OUT_ONCE] : [LEFT_OUT_SHORT, LEFT_OUT_ONCE_SHORT];
  const later = laterWeeks(state);
  const weeks = later === null ? [] : ['weeks from', shortDate(later)];
  const partial = isPartial
    ? [`${least} of ${strip.seasons}`, ...(later === null ? ['seasons', 'so far'] : [])]
    : [];
  const all = [...partial, ...weeks];
  const note = all.length === 0 ? leftOut : [...all, once];
  const right = 2 + Math.max(...leftOut.map(widthOf));
  const each = Math.max(6, Math.floor((width - first - right) / plans.length));
  const counts = dayCounts(
    strip,
    plans.map(({ label }) => label),
    each - 2,
  );
  const title = counts?.title ?? aboutIn(strip.about, scenario, first, signs.more);
  const cells = counts === null ? plans : plans.map((row, i) => ({ ...row, label: counts.labels[i]! }));
  const shown = cells.slice(0, Math.max(1, Math.floor((width - first - right) / each)));
  const labels = cells.map(({ label }) => label);
  const line = (head: string, of: (row: Cells) => string, note: string, meaning: Meaning): Row => {
    const row = [
      span(padEnd(head, first), meaning),
      ...shown.map((one) =>
        span(fittedRight(cut(of(one), each - 1, signs.more), each), meaningOf(one, meaning)),
      ),
    ];
    return [...fittedRow(row, width - right), span(`  ${note}`, 'faint')];
  };
  const at = pointerOf(state);
  const labelled = (row: Cells): string => {
    const signed = `${row === cells[at ?? -1] ? signs.pointer : ''}${row.now ? signs.now : ''}`;
    return `${signed}${named(row.label, each - 1 - signed.length, signs.more, labels) || 'now'}`;
  };
  const meaningOf = (row: Cells, plain: Meaning): Meaning =>
    row.now ? 'strong' : row.isFresh || plain === 'strong' ? 'plain' : 'faint';
  return [
    line(title, labelled, note[0]!, 'strong'),
    line(WEEK_WORDS[weekFigure(strip)].long, ({ usual }) => usual, note[1]!, 'faint'),
    line('bad week', ({ bad }) => bad, note[2]!, 'faint'),
  ];
}
