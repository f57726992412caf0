/**
 * A growth time as the simulator draws it: a time of its law, put on the grid.
 *
 * Where growth goes by date (growth-clock.ts) the law is that of growth in usual days: what is asked by an age is asked by the growth of
 * that age, and a moment is told by the growth until then.
 */

import { TICK, toGrid } from '../engine/clock.js';
import type { Law } from '../engine/laws.js';
import { lawOf } from './growth.js';
import { type GrowthClock, growthClock } from './growth-clock.js';
import type { Growing, GrowthTime } from './plan.js';

/** What is drawn lies on the grid, so "at most t" means at most half a tick more by the law. */
const HALF_TICK = TICK / 2;
/** The largest and smallest uniform numbers that the simulator draws. */
const LEAST_DRAW = 2 ** -33;
const MOST_DRAW = 1 - LEAST_DRAW;
/** Ages whose shares are kept: many plants in turn ask for the same few. */
const KEPT = 4;
/** Half the width of what counts as the same time when times are compared [d]. */
const NEAR = 0.01;

export class GrowingTime {
  readonly #law: Law;
  readonly #clock: GrowthClock | null;
  readonly #one = new Float64Array(1);
  readonly #ages = new Float64Array(KEPT).fill(Number.NaN);
  readonly #shares = new Float64Array(KEPT);
  #oldest = 0;

  static of(growing: Pick<Growing, 'time' | 'spells'>): GrowingTime {
    return new GrowingTime(growing.time, growthClock(growing));
  }

  /** @param clock by which it goes; null: a day is like any other */
  constructor(time: GrowthTime, clock: GrowthClock | null = null) {
    this.#law = lawOf(time);
    this.#clock = clock;
  }

  /** Growth of a plant from when it came to another time [d]: the days between them, unless they change by date. */
  grown(from: number, to: number): number {
    return this.#clock === null || to === Infinity ? to - from : this.#clock.growth(from, to);
  }

  /** When a plant has grown so much [d from the start, on the grid]. @param growth on the grid [d] */
  whenGrown(from: number, growth: number): number {
    return this.#clock === null ? from + growth : from + toGrid(this.#clock.daysFor(from, growth));
  }

  /** Days that some growth took which ended at a time [d]. */
  daysBefore(end: number, growth: number): number {
    return this.#clock?.daysBefore(end, growth) ?? growth;
  }

  /** P(T <= age) @param age [d] */
  readyBy(age: number): number {
    for (let i = 0; i < KEPT; i++) if (this.#ages[i] === age) return this.#shares[i]!;
    const share = this.#law.share(age + HALF_TICK);
    this.#ages[this.#oldest] = age;
    this.#shares[this.#oldest] = share;
    this.#oldest = (this.#oldest + 1) % KEPT;
    return share;
  }

  /** P(T > age) @param age [d] */
  beyond(age: number): number {
    return 1 - this.readyBy(age);
  }

  /** How likely times near `age` are, beside others: the law's mass within a hundredth of a day of it. */
  near(age: number): number {
    return this.#law.share(age + NEAR) - this.#law.share(age - NEAR);
  }

  /** P(least <= T <= most) @param least on the grid [d] @param most likewise; may be Infinity */
  within(least: number, most: number): number {
    return this.readyBy(most) - this.readyBy(least - TICK);
  }

  /**
   * The time below which a share u of those from `least` to `most` lies. Where the law has next to nothing, the limit that is
   * nearest to it.
   * @param least on the grid [d] @param most likewise; may be Infinity
   */
  timeWithin(least: number, most: number, u: number): number {
    const from = this.readyBy(least - TICK);
    const to = this.readyBy(most);
    const time = toGrid(this.quantile(from + u * (to - from)));
    return Math.min(most, Math.max(least, time));
  }

  /** The time below which a share u of all lies, as a draw gives it but for the grid [d] */
  quantile(u: number): number {
    this.#one[0] = Math.min(MOST_DRAW, Math.max(LEAST_DRAW, u));
    this.#law.fill(this.#one, 1);
    return this.#one[0];
  }
}
