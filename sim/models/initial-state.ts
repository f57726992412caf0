/** What stands in a line when a season is taken up in the middle: right after a visit. */

/**
 * What can come next of a plant. `ready`: it was ready at the visit already, and was left. Else what will happen to it.
 */
export const NEXT = ['ready', 'ripen', 'die', 'fail'] as const;

/** How far along plants are that stand: what a season takes from then on depends on it. */
export interface StandingStays {
  /** When each came into its hole, or was cut last [d from the start, whole; may lie before it] */
  readonly since: Int32Array;
  /** Of those that will die, in their order: days that they would have needed from then on until they were ready [d]. */
  readonly doomedDays: Float64Array;
}

/** Plants that stand, and what becomes of them next: columns with one entry a plant, as there may be a million. */
export interface StandingPlants {
  /** Place of its crop in the plan. */
  readonly crop: Uint8Array;
  /** Place of its stage in the plan. */
  readonly stage: Uint8Array;
  /** Picks that it can still give, at least 1. */
  readonly cutsLeft: Uint8Array;
  /** What comes next, by its place in NEXT. */
  readonly next: Uint8Array;
  /** When it became ready, at the visit or before; else when `next` happens, after the visit [d from the start, on the grid] */
  readonly at: Float64Array;
  /** Left out: not told, and then nobody can hear what leaves and water the season takes. */
  readonly stays?: StandingStays;
}

/** Holes that are out of use. */
export interface Cleaning {
  /** Place of the stage in the plan. */
  readonly stage: number;
  readonly holes: number;
  /** The first visit from then on takes them back into use [d from the start, on the grid]. */
  readonly until: number;
}

export interface InitialState {
  /** The visit that is over: what happened then or before has happened [d from the start, on the grid]. */
  readonly day: number;
  /** No visit before this day, whatever the plan says [d from the start]. */
  readonly visitsFrom: number;
  /** In the order of sowing: the number of a plant is its place here. */
  readonly plants: StandingPlants;
  readonly cleaning: readonly Cleaning[];
  /** For each stage whether a plant was ever ready to come into it. */
  readonly reached: readonly boolean[];
}
