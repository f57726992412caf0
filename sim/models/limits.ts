/** The limits of what is asked for, wherever it is asked: in a scenario, as an option, by a key, in a call. */

/** Both can be. */
export interface Limits {
  readonly least: number;
  readonly most: number;
}

/** Length of a season [weeks]. */
export const WEEKS: Limits = { least: 1, most: 520 };
/** The longest season [d]: what lies further apart is no season, but a slip of the year. */
export const LONGEST_SEASON = 7 * WEEKS.most;
/** Days from one sowing to the next [d]. */
export const EVERY: Limits = { least: 0.01, most: 3650 };
/** Seeds per sowing. */
export const SEEDS: Limits = { least: 1, most: 1_000_000 };

/** Channels of a stage. */
export const CHANNELS: Limits = { least: 1, most: 100_000 };
/** Holes of a line, all stages together. */
export const LINE_HOLES: Limits = { least: 1, most: 2_000_000 };
/** Seeds and plants of which a log tells, all together: what is worked out of a log takes memory for each. */
export const LOGGED_PLANTS: Limits = { least: 0, most: 10_000_000 };
/** Heads wanted in a week or on a day. */
export const HEADS: Limits = { least: 1, most: 1_000_000_000 };
/** Number that chooses the luck. */
export const SEED: Limits = { least: 0, most: Number.MAX_SAFE_INTEGER };

/** @returns the value @throws RangeError unless it lies within the limits */
export function within(name: string, value: number, { least, most }: Limits): number {
  if (value >= least && value <= most) return value;
  throw new RangeError(`${name} must be a number from ${least} to ${most}: ${value}`);
}

/** @returns the value @throws RangeError unless it is a whole number within the limits */
export function wholeWithin(name: string, value: number, { least, most }: Limits): number {
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  throw new RangeError(`${name} must be a whole number from ${least} to ${most}: ${value}`);
}
