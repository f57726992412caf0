/**
 * Times that a log leaves open within limits, chosen evenly over what the plan thinks likely.
 *
 * n plants whose time lies from `least` to `most` get the times at the shares (i + 1/2)/n of the plan's distribution
 * between these limits, or at shares that are drawn. Where the plan holds such times for all but impossible, they are spread
 * over the limits instead.
 */

import { toGrid } from '../../engine/clock.js';
import type { GrowingTime } from '../../models/growing-time.js';

/** Share of the distribution between the limits below which the plan's law says nothing about them. */
const NOTHING = 1e-6;

/** Which share of what is likely the i-th of n plants gets [0..1]. */
export type ShareOf = (i: number, n: number) => number;

const EVENLY: ShareOf = (i, n) => (i + 0.5) / n;

/**
 * @param least [d, on the grid, at least a tick]
 * @param most at least `least` [d, on the grid]; Infinity if there is no limit
 * @param out takes the times, the shortest first if the shares ascend [d, on the grid]
 */
export function spreadLikely(
  time: GrowingTime,
  least: number,
  most: number,
  out: Float64Array,
  shareOf = EVENLY,
): void {
  if (time.within(least, most) > NOTHING) {
    for (let i = 0; i < out.length; i++) out[i] = time.timeWithin(least, most, shareOf(i, out.length));
  } else spreadEvenly(least, most === Infinity ? least : most, out, shareOf);
}

/** Times from `least` to `most` at equal distances, on the grid. */
export function spreadEvenly(least: number, most: number, out: Float64Array, shareOf = EVENLY): void {
  for (let i = 0; i < out.length; i++) {
    // Limits by the growth of some days need not lie on the grid.
    const time = toGrid(least + shareOf(i, out.length) * (most - least));
    out[i] = Math.min(most, Math.max(least, time));
  }
}
