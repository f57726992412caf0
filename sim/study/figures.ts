/**
 * The one table of figures: what each is called, how it is written, which way is better, and how it comes from the tallies.
 * Studies, sections and the dashboard read this table.
 *
 * A figure is computed from all seasons, and from each section of them: that gives its interval (see sections.ts). Only
 * quantiles of the picks of a week have theirs from elsewhere (week-quantiles.ts).
 */

import type { Histogram } from '../engine/tally.js';
import {
  DISCARDED,
  EMPTY_STATES,
  type HoleState,
  PICKED,
  SOWN,
  STATE_COUNT,
  STATES,
} from '../models/ledger.js';
import { lineMatter } from '../models/physical/line-matter.js';
import { holesOf, type Plan, type StagePlan, seasonDays } from '../models/plan.js';
import { costIsTold } from '../models/untold-costs.js';
import { type Estimate, estimate, estimateFrom, type Parts } from '../seasons/sections.js';
import { firstPickDay, picksFrom, type Tallies } from '../seasons/tallies.js';
import { type WeekCounts, weekQuantile, weekQuantileDifference } from '../seasons/week-quantiles.js';
import type { WorkloadTallies } from '../seasons/workload-tallies.js';
import { amountsOf, type TakesSample } from './takes/amounts.js';
import { drainedAs, drains, isLookedAt } from './takes/drained.js';

/** The weeks that count. */
export interface Weeks {
  /** Picks of each of them, of all seasons. */
  readonly picks: Histogram;
}

/** What the figures of a plan are computed from: all its seasons, or a section of them. */
export interface Sample extends Weeks, TakesSample {}

/** A plan in a study: all its seasons, and each section (null where none was run). */
export interface Samples {
  readonly all: Sample;
  readonly sections: readonly (Sample | null)[];
}

/** What a figure is of: the whole line, or each of its stages or crops. */
export type Scope = 'whole' | 'stage' | 'crop';

/** A figure: one entry of the table. */
export interface Figure {
  /** As in JSON, in CSV and in `--by`. */
  readonly name: string;
  /** What a grower calls it. */
  readonly label: string;
  /** What it is, in one or two sentences. */
  readonly means: string;
  /** The same at the beginning of a row, in at most 14 letters. */
  readonly short: string;
  /** The same over a column. */
  readonly column: string;
  /** '%' stands for a share, from 0 to 1. */
  readonly unit: string;
  /** Decimals that are shown; 'few': none from 100 on and where it is whole, else one. */
  readonly decimals: number | 'few';
  readonly better: 'more' | 'less';
  readonly scope: Scope;
  /** Of a quantile of the picks of a week: which. Its interval is one of whole numbers (see week-quantiles.ts). */
  readonly quantile?: number;
  /** Does it depend on what is drained where a tank is filled anew (see takes/drained.ts)? Left out: no. */
  readonly ofDrained?: true;
  /** Does a plan tell what it needs? Where not, it is not even named; left out: any plan does. */
  isToldOf?(plan: Plan): boolean;
  /**
   * @param at which stage or crop
   * @returns NaN where there is no such figure
   */
  of(sample: Sample, at?: number): number;
}

const EMPTY: ReadonlySet<HoleState> = new Set(EMPTY_STATES.map((k) => STATES[k]!));

const TABLE = [
  {
    name: 'heads_a_week',
    label: 'heads a week',
    means: 'Heads picked a week on average, over the weeks in which the line is running.',
    short: 'heads a week',
    column: 'mean',
    unit: 'heads',
    decimals: 'few',
    better: 'more',
    scope: 'whole',
    of: ({ picks }: Weeks) => picks.mean,
  },
  {
    name: 'usual_week',
    label: 'heads in a usual week',
    means: 'Half of the weeks in which the line is running bring at least so many heads.',
    short: 'usual week',
    column: 'usual',
    unit: 'heads',
    decimals: 0,
    better: 'more',
    scope: 'whole',
    quantile: 0.5,
    of: ({ picks }: Weeks) => picks.least(0.5),
  },
  {
    name: 'bad_week',
    label: 'heads in a bad week',
    means: '1 week in 10 brings so many heads or fewer. Plan by it if somebody counts on the heads.',
    short: 'bad week',
    column: 'bad',
    unit: 'heads',
    decimals: 0,
    better: 'more',
    scope: 'whole',
    quantile: 0.1,
    of: ({ picks }: Weeks) => picks.least(0.1),
  },
  {
    name: 'weeks_without_pick',
    label: 'weeks without a pick',
    means: 'Share of the weeks in which the line is running that bring nothing to pick.',
    short: 'without a pick',
    column: 'none',
    unit: '%',
    decimals: 1,
    better: 'less',
    scope: 'whole',
    of: ({ picks }: Weeks) => picks.shareUpTo(0),
  },
  {
    name: 'seeds_a_head',
    label: 'seeds a head',
    means: 'Seeds sown for each head that is picked, over whole seasons.',
    short: 'seeds a head',
    column: 'seeds a head',
    unit: 'seeds',
    decimals: 2,
    better: 'less',
    scope: 'whole',
    of: ({ tallies }) => perHead(tallies, tallies.counts.mean(SOWN)),
  },
  {
    name: 'thrown_away',
    label: 'plants thrown away',
    means: 'Plants of a season that were thrown away because they had been ready for longer than they keep.',
    short: 'thrown away',
    column: 'thrown away',
    unit: 'plants',
    decimals: 'few',
    better: 'less',
    scope: 'whole',
    of: ({ tallies }) => tallies.counts.mean(DISCARDED),
  },
  {
    name: 'hole_days_a_head',
    label: 'hole-days a head',
    means: 'Hole-days that are there, used or not, for each head that is picked: what a head costs in room.',
    short: 'hole-days/head',
    column: 'hole-days a head',
    unit: 'hole-days',
    decimals: 'few',
    better: 'less',
    scope: 'whole',
    of: ({ plan, tallies }) => perHead(tallies, holeDaysOf(plan)),
  },
  {
    name: 'first_pick_day',
    label: 'day of the first pick',
    means: 'Day of the first pick, counted from the start, in the middle one of all seasons.',
    short: 'first pick',
    column: 'first pick',
    unit: 'day',
    decimals: 0,
    better: 'less',
    scope: 'whole',
    of: ({ tallies }) => firstPickDay(tallies, 0.5) ?? Number.NaN,
  },
  {
    name: 'idle',
    label: 'holes that stand empty',
    means: 'Share of the hole-days in which a hole stood empty and was not being cleaned.',
    short: 'empty',
    column: 'empty',
    unit: '%',
    decimals: 1,
    better: 'less',
    scope: 'stage',
    of: (sample, stage?: number) =>
      weightedHoleDays(sample, (state) => (EMPTY.has(state) ? 1 : 0), stage) / holeDaysOf(sample.plan, stage),
  },
] as const satisfies readonly Figure[];

/** What a head takes: of plans that tell of light, water, work or prices. */
const TAKES_A_HEAD: readonly Figure[] = [
  {
    name: 'kwh_a_head',
    label: 'kWh a head',
    means: 'What the lamps draw in a season, for each head that is picked.',
    short: 'kWh a head',
    column: 'kWh a head',
    unit: 'kWh',
    decimals: 2,
    better: 'less',
    scope: 'whole',
    isToldOf: ({ physical }) =>
      physical?.stages.some(({ lamps }) => (lamps?.power ?? null) !== null) ?? false,
    of: (sample) => amountsOf(sample)?.light?.kwh_per_head ?? Number.NaN,
  },
  {
    name: 'litres_a_head',
    label: 'litres a head',
    means:
      'Water that plants use in a season, for each head that is picked. Good to a factor of 1.5 until it is scaled to a meter.',
    short: 'litres a head',
    column: 'litres a head',
    unit: 'L',
    decimals: 2,
    better: 'less',
    scope: 'whole',
    isToldOf: (plan) => lineMatter(plan)?.drinks ?? false,
    of: (sample) => perHead(sample.tallies, amountsOf(sample)?.water?.used_l ?? Number.NaN),
  },
  {
    name: 'minutes_a_head',
    label: 'minutes a head',
    means: 'Minutes of work in a season, for each head that is picked.',
    short: 'minutes a head',
    column: 'minutes a head',
    unit: 'min',
    decimals: 1,
    better: 'less',
    scope: 'whole',
    isToldOf: ({ physical }) => (physical?.work ?? null) !== null,
    of: (sample) => perHead(sample.tallies, 60 * (amountsOf(sample)?.work?.hours ?? Number.NaN)),
  },
  {
    name: 'cost_a_head',
    label: 'cost a head',
    means: 'What a season costs, of all that has a price in the scenario, for each head that is picked.',
    short: 'cost a head',
    column: 'cost a head',
    unit: 'money',
    decimals: 2,
    better: 'less',
    scope: 'whole',
    ofDrained: true,
    isToldOf: costIsTold,
    of: (sample) => amountsOf(sample)?.money?.cost_per_head ?? Number.NaN,
  },
];

/** What a season takes and brings in money: of plans that tell of prices. */
const MONEY_A_SEASON: readonly Figure[] = [
  {
    name: 'cost_a_season',
    label: 'cost of a season',
    means: 'What a season costs, of all that has a price in the scenario.',
    short: 'season costs',
    column: 'cost a season',
    unit: 'money',
    decimals: 2,
    better: 'less',
    scope: 'whole',
    ofDrained: true,
    isToldOf: costIsTold,
    of: (sample) => amountsOf(sample)?.money?.cost.total ?? Number.NaN,
  },
  {
    name: 'margin_a_season',
    label: 'margin of a season',
    means:
      'What the picks of a season earn, less what the season costs, of all that has a price in the scenario.',
    short: 'season margin',
    column: 'margin a season',
    unit: 'money',
    decimals: 2,
    better: 'more',
    scope: 'whole',
    ofDrained: true,
    isToldOf: (plan) =>
      costIsTold(plan) && (plan.physical?.prices?.crops.some(({ sale }) => sale !== null) ?? false),
    of: (sample) => amountsOf(sample)?.money?.margin ?? Number.NaN,
  },
];

type Entry = (typeof TABLE)[number];

/** Names of the figures of a scope that any plan has. */
export type FigureName<Of extends Scope = Scope> = Extract<Entry, { scope: Of }>['name'];

/** All figures, in the order in which they are printed. */
export const FIGURES: readonly Figure[] = [...TABLE, ...TAKES_A_HEAD, ...MONEY_A_SEASON];

export function figureNamed<Name extends FigureName>(name: Name): Extract<Entry, { name: Name }> {
  return FIGURES.find((figure) => figure.name === name) as Extract<Entry, { name: Name }>;
}

/** Names of the figures of what a head takes that `isTold` is true of, as printed: others name them as those that any plan has. */
export function figuresAHead(isTold: (figure: Figure) => boolean): FigureName<'whole'>[] {
  return namesOf(TAKES_A_HEAD.filter(isTold));
}

/** The same of the money of a season. */
export function figuresASeason(isTold: (figure: Figure) => boolean): FigureName<'whole'>[] {
  return namesOf(MONEY_A_SEASON.filter(isTold));
}

function namesOf(figures: readonly Figure[]): FigureName<'whole'>[] {
  return figures.map(({ name }) => name as FigureName<'whole'>);
}

/** Something of each figure of a scope, by their names. @param plan adds those figures that it has and not every plan */
export function ofFigures<Of extends Scope, Value>(
  scope: Of,
  value: (figure: Figure) => Value,
  plan: Plan | null = null,
): Readonly<Record<FigureName<Of>, Value>> {
  const figures = FIGURES.filter(
    (figure) =>
      figure.scope === scope && (figure.isToldOf === undefined || (plan !== null && figure.isToldOf(plan))),
  );
  return Object.fromEntries(figures.map((figure) => [figure.name, value(figure)])) as Record<
    FigureName<Of>,
    Value
  >;
}

/** Holes x days of a season, of one stage or of all together [d]. */
export function holeDaysOf(plan: Plan, stage?: number): number {
  return stagesAt(plan, stage).reduce((sum, s) => sum + holesOf(plan.stages[s]!), 0) * seasonDays(plan);
}

/**
 * Hole-days of a season, each times its weight: what they cost or take, if that is what a hole-day of a state weighs.
 * @param weight of a hole-day [unit of the sum / d]
 * @param stage only this one; all together if left out
 */
export function weightedHoleDays(
  { plan, tallies: { ledger } }: Sample,
  weight: (state: HoleState, stage: StagePlan) => number,
  stage?: number,
): number {
  let sum = 0;
  for (const s of stagesAt(plan, stage)) {
    STATES.forEach((state, k) => {
      sum += weight(state, plan.stages[s]!) * ledger.mean(s * STATE_COUNT + k);
    });
  }
  return sum;
}

function stagesAt({ stages }: Plan, stage: number | undefined): readonly number[] {
  return stage === undefined ? [...stages.keys()] : [stage];
}

/** Heads that are wanted in the weeks from `from` on. */
export function wantedFrom({ want, weeks }: Plan, from: number): number {
  return want === null
    ? 0
    : want.heads * want.days.filter((day) => from * 7 <= day && day < weeks * 7).length;
}

function perHead({ counts }: Tallies, amount: number): number {
  return amount / counts.mean(PICKED);
}

/**
 * The samples of a plan.
 * @param from first week that counts
 * @param sections of `tallies`; without them figures have no intervals
 */
export function samplesFrom(
  plan: Plan,
  from: number,
  tallies: Tallies,
  sections: readonly (Tallies | null)[],
): Samples {
  const sample = (some: Tallies): Sample => ({
    plan,
    tallies: some,
    whole: tallies,
    picks: picksFrom(some, from),
  });
  return { all: sample(tallies), sections: sections.map((section) => section && sample(section)) };
}

/**
 * The samples of a job.
 * @param from first week that counts
 */
export function samplesOf(gathered: WorkloadTallies, job: number, plan: Plan, from: number): Samples {
  return samplesFrom(plan, from, gathered.whole(job), gathered.sectionsOf(job));
}

/**
 * A figure of a plan with its interval; null where there is no such figure.
 * @param at of which stage or crop
 */
export function figureOf(samples: Samples, figure: Figure, at?: number): Estimate | null {
  if (figure.quantile !== undefined) {
    return Number.isNaN(figure.of(samples.all, at))
      ? null
      : weekQuantile(figure.quantile, weekCountsOf(samples));
  }
  return estimated(figure, samples, at);
}

/**
 * How much more (or less) of a figure `ours` has than `theirs`: same luck, section by section.
 * @param at of which stage or crop
 * @param theirAt its place in `theirs`
 */
export function differenceOf(
  ours: Samples,
  theirs: Samples,
  figure: Figure,
  at?: number,
  theirAt = at,
): Estimate | null {
  if (figure.quantile !== undefined) {
    if (Number.isNaN(figure.of(ours.all, at) - figure.of(theirs.all, theirAt))) return null;
    return weekQuantileDifference(figure.quantile, weekCountsOf(ours), weekCountsOf(theirs));
  }
  return estimated(figure, ours, at, theirs, theirAt);
}

function weekCountsOf({ all, sections }: Samples): WeekCounts {
  return { all: all.picks, sections: sections.flatMap((section) => section?.picks ?? []) };
}

/**
 * @param theirs what is taken off, if anything
 * @returns null if there is no figure; no interval if a section lacks it
 */
function estimated(
  figure: Figure,
  ours: Samples,
  at: number | undefined,
  theirs: Samples | null = null,
  theirAt?: number,
): Estimate | null {
  /** The figure of what is picked of ours, less that of theirs; none where one of them has no such sample. */
  const parts = (
    s: number,
    pick: (samples: Samples, s: number) => Sample | null | undefined,
    seasons = 1,
  ): Parts => {
    const [mine, other] = [pick(ours, s), theirs && pick(theirs, s)];
    if (!mine || (theirs && !other)) return [];
    return [{ figure: figure.of(mine, at) - (other ? figure.of(other, theirAt) : 0), seasons }];
  };
  const [value] = parts(0, ({ all }) => all);
  if (!Number.isFinite(value!.figure)) return null;
  const ofSections = ours.sections.flatMap((section, s) =>
    parts(s, figure.ofDrained ? drainedAsInAll : sectionOf, section?.tallies.seasons),
  );
  if (!ofSections.every((one) => Number.isFinite(one.figure))) return estimate(value!.figure, []);
  if (!figure.ofDrained || ![ours, theirs].some((samples) => samples && isMovedByDrained(figure, samples)))
    return estimate(value!.figure, ofSections);
  const ofLooks = ours.sections.flatMap((section, s) =>
    parts(s, drainedAsSeen, section?.tallies.takes?.tankSeasons),
  );
  return estimateFrom(value!.figure, [ofSections, ofLooks]);
}

function sectionOf({ sections }: Samples, s: number): Sample | null | undefined {
  return sections[s];
}

function drainedAsInAll({ all, sections }: Samples, s: number): Sample | null | undefined {
  return sections[s] && drainedAs(sections[s], all);
}

/** All seasons as if as much were drained in them as in a section that was looked at. */
function drainedAsSeen({ all, sections }: Samples, s: number): Sample | null {
  const section = sections[s];
  return section && isLookedAt(section) ? drainedAs(all, section) : null;
}

/** Does a litre that is drained change a figure? */
function isMovedByDrained({ of }: Figure, { all }: Samples): boolean {
  return drains(all.plan) && of({ ...all, drainedMoreL: 1 }) !== of(all);
}
