/** The plans of the strip in words: what stands in the cells of each, as a row or as a column. */

import type { Bottleneck } from '../../../sim/study/bottleneck.js';
import { type FigureName, figureNamed } from '../../../sim/study/figures/figures.js';
import { widthOf } from '../../render/width.js';
import { formOf } from '../../words/figures.js';
import { heldBackBy } from '../../words/limits.js';
import { figureText } from '../../words/numbers.js';
import { differing } from '../state/knobs.js';
import type { State } from '../state/state.js';
import { each, isSamePlan, type Strip, type StripAbout, type StripRow } from '../state/strip.js';
import type { Signs } from '../theme.js';
import { isOut } from './difference.js';
import { wholePercent } from './headline.js';
import { FAIR_NAME, named } from './rows.js';
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

/** A row of the strip in words. */
export interface Cells {
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
export const OUT = '...';

/**
 * The figure that stands for a plan's weeks: the usual one, or heads a week on average where the usual week of all brings nothing, as of few
 * dates of sowing. The least of a bad week is then none either.
 */
export function weekFigure({ rows }: Strip): 'usual_week' | 'heads_a_week' {
  const usual = rows.flatMap(({ result }) => result?.figures.usual_week ?? []);
  return usual.length > 0 && usual.every(({ mean }) => mean === 0) ? 'heads_a_week' : 'usual_week';
}

export const WEEK_WORDS = {
  usual_week: { short: 'usual', long: 'usual week' },
  heads_a_week: { short: 'mean', long: 'mean week' },
} as const;

export function cellsOf(row: StripRow, { strip, scenario, kept }: StripState, { more }: Signs): Cells {
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
export function aboutIn(about: StripAbout, scenario: State['scenario'], width: number, more: string): string {
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

/** The row that keys act on now; null while they act on the plan. */
export function pointerOf({ mark, pointer }: StripState): number | null {
  return mark === 'strip' ? pointer : null;
}

/** The plans that were told beside these, and the seasons that they stand on at least. */
export function progressOf({ rows }: Strip): { readonly known: readonly StripRow[]; readonly least: number } {
  const known = rows.filter(({ result, fresh }) => result !== null && fresh);
  return { known, least: Math.min(...known.map(({ seasons }) => seasons)) };
}

/** The first of the weeks that count for all of them, where that is later than of the headline; null if it is not. */
export function laterWeeks(state: StripState): string | null {
  const { strip, figures } = state;
  // Said as soon as the first of them comes in: each that comes in later may change the weeks, and with them the figures of all.
  if (isOut(state) || strip.from === null) return null;
  const own = figures?.result.running?.from;
  return own === undefined || own >= strip.from ? null : strip.from;
}
