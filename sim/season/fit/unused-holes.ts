/**
 * Holes that the scenario has and the line, it seems, does not.
 *
 * If the next stage has fewer holes than the scenario says, it looks as if holes were left over where none were, and what
 * plants waited is taken for growing. Then the largest number of holes that were ever taken is less than the
 * scenario's, and is reached again and again.
 */

import type { StageDays } from '../history/occupancy.js';

/** The most holes of a stage that were ever taken at once, fewer than the scenario has. */
export interface UnusedHoles {
  readonly planned: number;
  /** Taken or being cleaned. */
  readonly most: number;
  /** Visits after which so many were taken. */
  readonly times: number;
}

/** So often at least: what is reached now and then is chance. */
const OFTEN = 3;

/** @param visits days of the visits @returns null if all holes were taken once, or the most only now and then */
export function unusedHoles({ holes, empty }: StageDays, visits: readonly number[]): UnusedHoles | null {
  const left = visits.map((day) => empty[day]!);
  const least = Math.min(...left);
  const times = left.filter((count) => count === least).length;
  return least === 0 || least === holes || times < OFTEN
    ? null
    : { planned: holes, most: holes - least, times };
}
