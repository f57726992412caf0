/**
 * Times that a log leaves open within limits, chosen evenly over what the plan thinks likely.
 *
 * n plants whose time lies from `least` to `most` get the times at the shares (i + 1/2)/n of the plan's distribution
 * between these limits. Where the plan holds such times for all but impossible, they are spread evenly instead.
 */

import { TICK, toGrid } from '../../engine/clock.js';
import type { Law } from '../../engine/quantiles.js';

/** Share of the distribution between the limits below which the plan's law says nothing about them. */
const NOTHING = 1e-6;
/** Halvings that find a share of the distribution to the resolution of a draw. */
const HALVINGS = 32;
/** A uniform number stays below 1. */
const ALL_BUT_ONE = 1 - 2 ** -33;

export class Spread {
  readonly #law: Law;
  /** Shares of the law below (even keys) and up to (odd keys) a time, by the time in ticks. */
  readonly #shares = new Map<number, number>();
  readonly #one = new Float64Array(1);

  constructor(law: Law) {
    this.#law = law;
  }

  /**
   * @param least [d, on the grid, at least a tick]
   * @param most at least `least` [d, on the grid]; Infinity if there is no limit
   * @param out takes the times, the shortest first [d, on the grid]
   */
  fill(least: number, most: number, out: Float64Array): void {
    const n = out.length;
    const from = this.#share(least, false);
    const width = (most === Infinity ? 1 : this.#share(most, true)) - from;
    if (width > NOTHING) {
      for (let i = 0; i < n; i++) out[i] = Math.min(ALL_BUT_ONE, from + ((i + 0.5) / n) * width);
      this.#law.fill(out, n);
    } else spreadEvenly(least, most === Infinity ? least : most, out);
    for (let i = 0; i < n; i++) out[i] = Math.min(most, Math.max(least, toGrid(out[i]!)));
  }

  /** Share of the law below `time`, or with `upTo` also at it. */
  #share(time: number, upTo: boolean): number {
    const key = 2 * Math.round(time / TICK) + (upTo ? 1 : 0);
    let share = this.#shares.get(key);
    if (share === undefined) {
      let low = 0;
      let high = 1;
      for (let i = 0; i < HALVINGS; i++) {
        const middle = (low + high) / 2;
        this.#one[0] = middle;
        this.#law.fill(this.#one, 1);
        const below = upTo ? this.#one[0] <= time : this.#one[0] < time;
        if (below) low = middle;
        else high = middle;
      }
      share = (low + high) / 2;
      this.#shares.set(key, share);
    }
    return share;
  }
}

/** Times from `least` to `most` at equal distances, on the grid. */
export function spreadEvenly(least: number, most: number, out: Float64Array): void {
  for (let i = 0; i < out.length; i++) out[i] = toGrid(least + ((i + 0.5) / out.length) * (most - least));
}
