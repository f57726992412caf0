/**
 * The plan of a line as the simulator reads it: plain data, resolved once.
 *
 * Names have become indices, dates have become days from the start, defaults are filled in. Nothing behind this
 * file asks whether a key is set. `sim/scenario` makes a plan from a scenario file; tests make plans by hand.
 */

import type { PhysicalPlan } from './physical/plan.js';

/** Shapes of growth-time distributions. */
export type Shape = 'lognormal' | 'gamma' | 'weibull' | 'triangular' | 'exponential' | 'fixed' | 'observed';

/** How long a plant needs in a stage. */
export interface GrowthTime {
  readonly shape: Shape;
  /** Mean time [d]. For `observed` the mean of `times`. */
  readonly days: number;
  /** Coefficient of variation: standard deviation over mean [-]. 0 for `fixed`, 1 for `exponential`. */
  readonly spread: number;
  /** The observed times that are resampled [d]; empty for every other shape. */
  readonly times: readonly number[];
}

/** What a crop does in one stage (or in one regrowth after a pick). */
export interface Growing {
  readonly time: GrowthTime;
  /** Probability that a plant dies in the stage [0..1]. */
  readonly loss: number;
  /** Days that a ready plant stays good where it stands [d]; Infinity if for ever. */
  readonly keeps: number;
  /** Spells in which it takes longer or shorter than `time`, ascending and apart from each other; left out if there are none. */
  readonly spells?: readonly GrowthSpell[];
}

/** A spell in which plants need another time than usual. */
export interface GrowthSpell {
  /** First day of the spell, and the first after it, whole [d from the start]. */
  readonly from: number;
  readonly beyond: number;
  /** How many times as long growth takes then [-], above 0. */
  readonly times: number;
}

/**
 * What a visit does where several sowings of a crop fell due since the last one: all of them are made up for, or all but the
 * latest are dropped.
 */
export type Missed = 'made_up' | 'dropped';

/** When seeds of a crop are sown. */
export type Sowing =
  /**
   * `days`: days from the start on which a sowing falls due, ascending [d]. `seeds`: seeds per sowing. `more`: seeds beyond
   * these of each sowing; none if it is left out.
   */
  | {
      readonly kind: 'due';
      readonly days: readonly number[];
      readonly seeds: number;
      readonly more?: readonly number[];
      /** `made_up` if left out. */
      readonly missed?: Missed;
    }
  /** At each visit, what the line will miss (see refill.ts). */
  | { readonly kind: 'refill' };

export interface CropPlan {
  readonly name: string;
  /** Probability that a seed sprouts [0..1]. */
  readonly germination: number;
  readonly sowing: Sowing;
  /** Picks per plant, at least 1. */
  readonly cuts: number;
  /** Growth between two picks; null when `cuts` is 1. Its `keeps` is that of the last stage. */
  readonly regrow: Growing | null;
  /** Fresh mass of one head or cut [g]; null when not given. */
  readonly headG: number | null;
  /** One entry a stage, in the order of the line's stages. */
  readonly stages: readonly Growing[];
}

export interface StagePlan {
  readonly name: string;
  readonly channels: number;
  readonly holesPerChannel: number;
  /** Floor or shelf area of one hole [cm2]; null when not given. */
  readonly holeAreaCm2: number | null;
  /** Days that a hole is out of use after a plant has left it [d]; 0 for none. */
  readonly cleanDays: number;
}

/** When somebody tends the line. */
export type Visits =
  /** Somebody acts at the instant of every change. */
  | { readonly kind: 'always' }
  /** Whole days from the start at whose beginning there is a visit, ascending [d]. `away`: left out if nobody is ever away. */
  | { readonly kind: 'days'; readonly days: readonly number[]; readonly away?: Absence };

/** Days of the season on which nobody can come, ascending [d]. */
export interface Absence {
  readonly days: readonly number[];
  /** Those of them on which there would be a visit. */
  readonly visits: readonly number[];
}

/** Heads that are wanted. */
export interface Want {
  /** Heads wanted on each of `days`. */
  readonly heads: number;
  /** Whole days from the start on which they are wanted, ascending [d]. */
  readonly days: readonly number[];
}

export interface Plan {
  readonly title: string;
  /** ISO 8601 date of day 0. */
  readonly start: string;
  /** Length of a season [weeks of 7 d]. */
  readonly weeks: number;
  /** Seed of the random streams, a whole number of at least 0. */
  readonly seed: number;
  readonly visits: Visits;
  readonly stages: readonly StagePlan[];
  readonly crops: readonly CropPlan[];
  /** null: all that is ready is picked. */
  readonly want: Want | null;
  /** Lamps, crops' matter, air, water, shelves, work and prices; left out (or null) where nothing of them is told. */
  readonly physical?: PhysicalPlan | null;
}

/** Seeds of all sowings that fall due within the season; of crops that are refilled none. */
export function seedsDue(plan: Plan): number {
  return plan.crops.reduce((sum, crop) => sum + seedsDueOf(plan, crop), 0);
}

/** The same of one crop. */
export function seedsDueOf(plan: Plan, { sowing }: CropPlan): number {
  if (sowing.kind !== 'due') return 0;
  const end = seasonDays(plan);
  return sowing.days.reduce(
    (sum, day, i) => (day < end ? sum + sowing.seeds + (sowing.more?.[i] ?? 0) : sum),
    0,
  );
}

/** Holes of a stage, all channels together. */
export function holesOf(stage: StagePlan): number {
  return stage.channels * stage.holesPerChannel;
}

/** Holes of all stages together. */
export function holesOfLine({ stages }: Pick<Plan, 'stages'>): number {
  return stages.reduce((sum, stage) => sum + holesOf(stage), 0);
}

/** How a plant grows in a stage. @param picks that it has given there */
export function growingOf(crop: CropPlan, stage: number, picks: number): Growing {
  return picks === 0 ? crop.stages[stage]! : crop.regrow!;
}

/** Days of the season at whose beginning there is a visit [d]; none with `always`. */
export function visitDays(plan: Plan): readonly number[] {
  const { visits } = plan;
  return visits.kind === 'always' ? [] : visits.days.filter((day) => day < seasonDays(plan));
}

/** Length of a season [d]. */
export function seasonDays(plan: Plan): number {
  return plan.weeks * 7;
}
