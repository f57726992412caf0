/**
 * The strip: the plan on the screen beside its neighbours, a row a plan, on one scale. On a low screen a column a plan, with usual and bad week only.
 */

import type { Bottleneck } from '../../../sim/study/bottleneck.js';
import { type FigureName, figureNamed } from '../../../sim/study/figures.js';
import { padEnd, padStart, widthOf } from '../../render/width.js';
import { dateText, shortDate } from '../../words/dates.js';
import { formOf } from '../../words/figures.js';
import { heldBackBy } from '../../words/limits.js';
import { counted, figureText } from '../../words/numbers.js';
import { differing } from '../state/knobs.js';
import type { State } from '../state/state.js';
import { aboutsOf, each, isSamePlan, type Strip, type StripAbout, type StripRow } from '../state/strip.js';
import type { Meaning, Row, Signs, Span } from '../theme.js';
import { isOut } from './difference.js';
import { wholePercent } from './headline.js';
import { cut, FAIR_NAME, fitted, fittedRight, fittedRow, mark, named, rowWidth, span } from './rows.js';
import { toldAHead } from './takes.js';

export type StripState = Pick<
  State,
  'strip' | 'scenario' | 'kept' | 'figures' | 'asked' | 'answered' | 'mark' | 'pointer'
>;

export interface StripInput {
  readonly state: StripState;
  readonly width: number;
  /** Rows of the plans; 0: a column a plan. */
  readonly plans: number;
  readonly signs: Signs;
}

/** Rows of a strip with a column a plan. */
export const COLUMNS_HEIGHT = 3;
/** Rows of a strip beside those of its plans: its heading, and what is said of it. */
export const STRIP_FRAME = 2;

export function stripRows(input: StripInput): Row[] {
  return input.plans === 0 ? columnRows(input) : planRows(input);
}

/** A row of the strip in words. */
interface Cells {
  readonly label: string;
  readonly now: boolean;
  readonly usual: string;
  readonly bad: string;
  /** Heads, for the bars; null where there are none. */
  readonly heads: { readonly usual: number; readonly bad: number } | null;
  readonly idle: readonly string[];
  readonly seeds: string;
  /** What a head takes, each figure that the scenario tells of. */
  readonly takes: readonly string[];
  readonly held: (room: number) => string;
  /** Figures of the plans that stand here now, from all their seasons. */
  readonly isFresh: boolean;
}

/** Stands where something is still being computed. */
const OUT = '...';

/**
 * The figure that stands for a plan's weeks: the usual one, or heads a week on average where the usual week of all brings nothing, as of few
 * dates of sowing. The least of a bad week is then none either.
 */
function weekFigure({ rows }: Strip): 'usual_week' | 'heads_a_week' {
  const usual = rows.flatMap(({ result }) => result?.figures.usual_week ?? []);
  return usual.length > 0 && usual.every(({ mean }) => mean === 0) ? 'heads_a_week' : 'usual_week';
}

const WEEK_WORDS = {
  usual_week: { short: 'usual', long: 'usual week' },
  heads_a_week: { short: 'mean', long: 'mean week' },
} as const;

function cellsOf(row: StripRow, { strip, scenario, kept }: StripState, { more }: Signs): Cells {
  const { result, seasons, fresh, now } = row;
  const label = labelOf(row, strip.about, scenario, kept);
  const aHead = toldAHead(scenario);
  if (result === null) {
    const [idle, takes] = [row.scenario.stages.map(() => ''), aHead.map(() => '')];
    const unknown = { usual: OUT, bad: OUT, heads: null, idle, seeds: '', takes, held: () => OUT };
    return { label, now, ...unknown, isFresh: true };
  }
  const value = (name: FigureName<'whole'>): string => {
    const figure = result.figures[name];
    // A plan that was kept may lack what this one tells of.
    if (figure == null) return '-';
    const text = figureText(figure.mean, formOf(figureNamed(name)));
    // What was told beside other plans stands in brackets until it is told beside these.
    return fresh ? text : `(${text})`;
  };
  const shown = weekFigure(strip);
  const { usual_week, bad_week } = result.figures;
  const week = result.figures[shown];
  const isWhole = seasons === strip.seasons;
  const progress = strip.seasons === null || isWhole ? OUT : `${seasons} of ${strip.seasons}`;
  return {
    label,
    now,
    usual: value(shown),
    bad: value('bad_week'),
    heads: week && bad_week && { usual: week.mean, bad: bad_week.mean },
    idle: result.idle.map(({ share }) => (share === null ? '-' : wholePercent(share.mean))),
    seeds: value('seeds_a_head'),
    takes: aHead.map(value),
    held: (room) => {
      if (!fresh || result.limits === null) return usual_week === null && isWhole ? '-' : progress;
      const long = heldBackBy(result.limits);
      return widthOf(long) <= room ? long : heldShort(result.limits, room, more, scenario.stages);
    },
    isFresh: fresh && isWhole,
  };
}

const SHORT: Readonly<Record<Exclude<Bottleneck['by'], 'stage'>, string>> = {
  sowing: 'sowing',
  visits: 'visits',
  away: 'absence',
  want: 'the want',
  nothing: 'nothing',
};

/** Names of stages in what room there is, each shortened; the first alone where that leaves too little of them. */
function heldShort(
  { by, stages }: Bottleneck,
  room: number,
  more: string,
  all: State['scenario']['stages'],
): string {
  if (by !== 'stage') return SHORT[by];
  const whole = stages.join(', ');
  if (widthOf(whole) <= room) return whole;
  const names = all.map(({ name }) => name);
  const each = Math.floor((room - 2 * (stages.length - 1)) / stages.length);
  const shortened = (one: string, width: number): string => named(one, width, more, names);
  if (each >= FAIR_NAME) return stages.map((one) => shortened(one, each)).join(', ');
  return `${shortened(stages[0]!, room - 2 - more.length)}, ${more}`;
}

/** What a plan of the strip is called: `3 d`, `mon thu`, `10`, `1: seeds 12`. */
function labelOf(
  { scenario, now }: StripRow,
  about: StripAbout,
  present: State['scenario'],
  kept: State['kept'],
): string {
  switch (about.kind) {
    case 'cadence':
      return each(scenario, (sow) =>
        'every' in sow ? `${sow.every} d` : 'on' in sow ? sow.on.join(' ') : 'as it is',
      );
    case 'seeds':
      return each(scenario, (sow) => ('seeds' in sow ? String(sow.seeds) : '-'));
    case 'channels':
      return String(scenario.stages.find(({ name }) => name === about.stage)!.channels);
    case 'visits':
      return typeof scenario.visits === 'string' ? scenario.visits : scenario.visits.join(' ');
    case 'kept': {
      const plan = kept.find((one) => isSamePlan(one.scenario, scenario));
      const number = plan === undefined ? '' : `${plan.number}`;
      if (now) return number;
      return `${number}: ${differing(scenario, present) || 'as now'}`;
    }
  }
}

/** The same in so many columns. */
function aboutIn(about: StripAbout, scenario: State['scenario'], width: number, more: string): string {
  const whole = aboutWords(about, scenario);
  if (about.kind !== 'channels') return named(whole, width, more);
  const room = width - widthOf(whole) + widthOf(about.stage);
  const names = scenario.stages.map(({ name }) => name);
  return room < FAIR_NAME
    ? named(about.stage, width, more, names)
    : aboutWords({ ...about, stage: named(about.stage, room, more, names) }, scenario);
}

/** What the plans of the strip differ in, over their labels. */
export function aboutWords(about: StripAbout, { crops }: State['scenario']): string {
  switch (about.kind) {
    case 'cadence':
      return crops.some(({ sow }) => 'on' in sow) ? 'Sow on' : 'Sow every';
    case 'seeds':
      return 'Seeds';
    case 'channels':
      return `Channels of ${about.stage}`;
    case 'visits':
      return 'Visits';
    case 'kept':
      return 'Kept plans';
  }
}

/** Columns before a label: whether it is the plan on the screen, and whether the pointer stands there. */
const PREFIX = 2;
/** Columns of the bars, at least, where there is room for more, and at most. */
const SHORTEST_BAR = 8;
const FAIR_BAR = 20;
const LONGEST_BAR = 40;
/** Columns of what holds a plan back: at least, and where there is room. */
const HELD = 9;
const WIDE_HELD = 13;
const FULL_HELD = 22;
/** Columns of a stage: its share alone; and at most, with its name. */
const IDLE = 5;
const FULL_IDLE = 14;
const SEEDS = 12;
/** Columns of a figure of a head, at least: one in brackets. */
const TAKES = 7;

/** Where the columns of the strip stand. */
interface Columns {
  readonly label: number;
  readonly usual: number;
  readonly bad: number;
  readonly bar: number;
  /** Columns of each stage that is shown. */
  readonly idle: readonly number[];
  /** Stages that are left out. */
  readonly leftOut: boolean;
  readonly percent: string;
  /** 0: not shown. */
  readonly seeds: number;
  /** Of each figure of a head that is shown, the first ones: its heading, and its columns. */
  readonly takes: readonly { readonly heading: string; readonly width: number }[];
  readonly held: number;
}

/** @param aHead figures of a head, what matters most first */
function columnsOf(
  rows: readonly Cells[],
  title: string,
  stages: readonly string[],
  aHead: readonly FigureName<'whole'>[],
  width: number,
): Columns {
  const widest = (texts: readonly string[]): number => Math.max(...texts.map(widthOf));
  const label = Math.min(
    Math.floor(width / 4),
    Math.max(9, widest(rows.map((row) => row.label + (row.now ? ' now' : ''))), widthOf(title) - PREFIX),
  );
  // Room for the brackets of what is not fresh.
  const heads = (name: 'usual' | 'bad', least: number): number =>
    1 +
    Math.max(
      least,
      ...rows.map((row) => (row[name] === OUT ? 0 : widthOf(row[name].replace(/[()]/g, '')) + 2)),
    );
  const usual = heads('usual', 5);
  const bad = heads('bad', 4);
  let room = width - PREFIX - label - usual - bad - 2 - SHORTEST_BAR - 2 - HELD - 1;
  /** Take so many columns if they are there. */
  const take = (columns: number): boolean => {
    if (columns > room) return false;
    room -= columns;
    return true;
  };
  // The most important first; the widths do not depend on what has come so far, so that nothing jumps.
  let idle: number[] = stages.map(() => IDLE);
  while (!take(idle.reduce((sum, one) => sum + one, 0))) idle.pop();
  const percent = take(2 * idle.length) ? ' %' : '';
  idle = idle.map((one) => one + percent.length);
  let held = HELD;
  if (take(WIDE_HELD - held)) held = WIDE_HELD;
  const takes: { heading: string; width: number }[] = [];
  /** The next figure of a head, if it is there and has room: with its heading in full, or else with its first word. */
  const takeAHead = (forms: readonly ('full' | 'first')[]): boolean => {
    const [place, name] = [takes.length, aHead[takes.length]];
    if (name === undefined) return false;
    const short = figureNamed(name).short;
    return forms.some((form) => {
      const heading = form === 'full' ? short.replace(' a ', '/') : short.split(' ')[0]!;
      const columns = 1 + Math.max(TAKES - 1, widthOf(heading), widest(rows.map((row) => row.takes[place]!)));
      return take(columns) && takes.push({ heading, width: columns }) > 0;
    });
  };
  takeAHead(['full', 'first']);
  let bar = SHORTEST_BAR;
  const lengthen = (to: number): void => {
    const more = Math.max(0, Math.min(to - bar, room));
    bar += more;
    room -= more;
  };
  lengthen(FAIR_BAR);
  const full = idle.map((one, s) => Math.max(one, Math.min(widthOf(stages[s]!) + 1, FULL_IDLE)));
  if (take(full.reduce((sum, one, s) => sum + one - idle[s]!, 0))) idle = full;
  while (takeAHead(['full']));
  if (take(FULL_HELD - held)) held = FULL_HELD;
  const seeds = take(SEEDS) ? SEEDS : 0;
  lengthen(LONGEST_BAR);
  held += room;
  return { label, usual, bad, bar, idle, leftOut: idle.length < stages.length, percent, seeds, takes, held };
}

function planRows({ state, width, plans, signs }: StripInput): Row[] {
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

/** The row that keys act on now; null while they act on the plan. */
function pointerOf({ mark, pointer }: StripState): number | null {
  return mark === 'strip' ? pointer : null;
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

/** The plans that were told beside these, and the seasons that they stand on at least. */
function progressOf({ rows }: Strip): { readonly known: readonly StripRow[]; readonly least: number } {
  const known = rows.filter(({ result, fresh }) => result !== null && fresh);
  return { known, least: Math.min(...known.map(({ seasons }) => seasons)) };
}

/** The first of the weeks that count for all of them, where that is later than of the headline; null if it is not. */
function laterWeeks(state: StripState): string | null {
  const { strip, figures } = state;
  // Said as soon as the first of them comes in: each that comes in later may change the weeks, and with them the figures of all.
  if (isOut(state) || strip.from === null) return null;
  const own = figures?.result.running?.from;
  return own === undefined || own >= strip.from ? null : strip.from;
}

/** Kept plans that the strip has no room for. */
function hiddenKept({ kept, strip }: StripState): number {
  return kept.filter(({ scenario }) => !strip.rows.some((row) => isSamePlan(row.scenario, scenario))).length;
}

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
function columnRows({ state, width, signs }: StripInput): Row[] {
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
