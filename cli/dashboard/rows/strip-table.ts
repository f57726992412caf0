/** The strip as a table, a row a plan, and below it how many seasons stand behind it and what it can show instead. */

import { padEnd, padStart } from '../../render/width.js';
import { dateText } from '../../words/dates.js';
import { counted } from '../../words/numbers.js';
import { aboutsOf, isSamePlan } from '../state/strip.js';
import type { Meaning, Row, Signs, Span } from '../theme.js';
import { cut, fitted, fittedRight, mark, named, rowWidth, span } from './rows.js';
import {
  aboutIn,
  aboutWords,
  type Cells,
  cellsOf,
  laterWeeks,
  pointerOf,
  progressOf,
  type StripInput,
  type StripState,
  WEEK_WORDS,
  weekFigure,
} from './strip-cells.js';
import { type Columns, columnsOf, PREFIX } from './strip-places.js';
import { toldAHead } from './takes.js';

export function planRows({ state, width, plans, signs }: StripInput): Row[] {
  const { strip, scenario } = state;
  const cells = strip.rows.slice(0, plans).map((row) => cellsOf(row, state, signs));
  const stages = scenario.stages.map(({ name }) => name);
  const title = aboutWords(strip.about, scenario);
  const columns = columnsOf(cells, title, stages, toldAHead(scenario), width);
  const labels = cells.map((row) => row.label);
  const top = Math.max(0, ...cells.map(({ heads }) => heads?.usual ?? 0));
  const at = pointerOf(state);
  const rows = cells.map((row, i) => planRow(row, i === at, columns, labels, top, signs));
  const heading = aboutIn(strip.about, scenario, PREFIX + columns.label, signs.more);
  // So that nothing jumps: a strip of fewer plans is as high as one of many.
  while (rows.length < plans) rows.push([]);
  return [
    headingRow(heading, WEEK_WORDS[weekFigure(strip)].short, stages, columns, signs),
    ...rows,
    statusRow(state, width, signs),
  ];
}

function headingRow(
  title: string,
  week: string,
  stages: readonly string[],
  columns: Columns,
  signs: Signs,
): Row {
  const { label, usual, bad, bar, idle, leftOut, seeds, takes, held } = columns;
  const over = bar >= 20 ? 'heads a week' : bar >= 12 ? 'heads' : '';
  const idleWord = leftOut ? `idle${signs.more}` : 'idle:';
  return [
    span(padEnd(title, PREFIX + label), 'strong'),
    span(fittedRight(week, usual), 'faint'),
    span(fittedRight('bad', bad), 'faint'),
    span('  '),
    span(fitted(over, bar - idleWord.length + 1), 'faint'),
    span(idleWord, 'faint'),
    ...idle.map((columns, s) =>
      span(padStart(named(stages[s]!, columns - 1, signs.more, stages), columns), 'faint'),
    ),
    ...takes.map(({ heading, width }) => span(fittedRight(heading, width), 'faint')),
    ...(seeds === 0 ? [] : [span(fittedRight('seeds/head', seeds), 'faint')]),
    span(`  ${held >= 12 ? 'held back by' : 'held back'}`, 'faint'),
  ];
}

/** @param labels of all rows, which are told apart */
function planRow(
  row: Cells,
  isPointed: boolean,
  columns: Columns,
  labels: readonly string[],
  top: number,
  signs: Signs,
): Row {
  const { label, usual, bad, idle, percent, seeds, takes, held } = columns;
  const heads: Meaning = row.isFresh ? (row.now ? 'strong' : 'plain') : 'faint';
  const rest: Meaning = row.isFresh ? 'plain' : 'faint';
  const behind = row.now ? `${row.label === '' ? '' : ' '}now` : '';
  const name = `${named(row.label, label - behind.length, signs.more, labels)}${behind}`;
  return [
    span(row.now ? signs.now : ' ', 'strong'),
    span(isPointed ? signs.pointer : ' ', 'strong'),
    span(padEnd(name, label), isPointed ? 'chosen' : row.now ? 'strong' : 'plain'),
    span(fittedRight(row.usual, usual), heads),
    span(fittedRight(row.bad, bad), heads),
    span('  '),
    ...barOf(row, columns.bar, top, signs),
    span(' '),
    ...idle.map((room, s) => {
      const text = row.idle[s] ?? '';
      return span(fittedRight(text === '' || text === '-' ? text : `${text}${percent}`, room), rest);
    }),
    ...takes.map(({ width }, i) => span(fittedRight(row.takes[i]!, width), rest)),
    ...(seeds === 0 ? [] : [span(fittedRight(row.seeds, seeds), rest)]),
    span(`  ${cut(row.held(held), held, signs.more)}`, rest),
  ];
}

/** The usual week as a bar, with the bad week marked on it. */
function barOf({ heads, isFresh, now }: Cells, width: number, top: number, signs: Signs): Span[] {
  if (heads === null || top === 0) return [span(' '.repeat(width))];
  const places = (amount: number): number =>
    amount === 0 ? 0 : Math.max(1, Math.round((amount / top) * width));
  const long = places(heads.usual);
  const at = Math.max(1, places(heads.bad)) - 1;
  const meaning: Meaning = !isFresh ? 'faint' : now ? 'middle' : 'band';
  return [
    span(signs.bar.repeat(Math.min(at, long)), meaning),
    span(signs.bad, isFresh ? 'strong' : 'faint'),
    span(signs.bar.repeat(Math.max(0, long - at - 1)), meaning),
    span(' '.repeat(Math.max(0, width - Math.max(long, at + 1)))),
  ];
}

/** How many seasons stand behind the strip, what its signs mean, and what it can show instead. */
function statusRow(state: StripState, width: number, signs: Signs): Row {
  const { strip, scenario, kept } = state;
  const row: Span[] = [];
  const put = (...pieces: readonly Span[]): boolean => {
    const next = [...(row.length === 0 ? [] : [span(` ${signs.dot} `, 'faint')]), ...pieces];
    const fits = rowWidth([...row, ...next]) <= width - PREFIX;
    if (fits) row.push(...next);
    return fits;
  };
  const { known, least } = progressOf(strip);
  const { seasons } = strip;
  if (known.length < strip.rows.length || seasons === null) {
    put(span(`${known.length} of ${counted(strip.rows.length, 'plan')} so far`, 'warn'));
  } else if (least < seasons) put(span(`${least} of ${counted(seasons, 'season')} so far`, 'warn'));
  else if (known.some(({ result }) => result!.limits === null && result!.figures.usual_week !== null)) {
    put(span(`${counted(seasons, 'season')} each, small changes being tried`, 'warn'));
  } else put(span(`${counted(seasons, 'season')} each${width >= 100 ? ', same luck' : ''}`, 'faint'));
  const later = laterWeeks(state);
  if (later !== null) put(span(`weeks from ${dateText(later)} on`, 'warn'));
  const hidden = strip.about.kind === 'kept' ? hiddenKept(state) : 0;
  if (hidden > 0) put(span(`${counted(hidden, 'older plan')} not shown`, 'warn'));
  if (weekFigure(strip) === 'heads_a_week') put(span('mean heads a week: the usual week has none', 'warn'));
  put(...mark(signs.bad, 'strong', 'bad week, 1 in 10'));
  const others = [
    ...new Set(
      aboutsOf(scenario, kept.length)
        .filter((about) => about.kind !== strip.about.kind)
        .map(({ kind }) => (kind === 'kept' ? 'kept plans' : kind)),
    ),
  ];
  put(span('c', 'strong'), span(` ${others.join(', ')}${width >= 100 ? ' instead' : ''}`, 'faint'));
  return [span(' '.repeat(PREFIX)), ...row];
}

/** Kept plans that the strip has no room for. */
function hiddenKept({ kept, strip }: StripState): number {
  return kept.filter(({ scenario }) => !strip.rows.some((row) => isSamePlan(row.scenario, scenario))).length;
}
