/**
 * What is likely of one growth (a crop in a stage, or between two picks), given what was seen of it.
 *
 * Times lie on the simulator's grid, so "at most t" means at most half a tick more by the law. A plant that is lost dies at
 * a uniform moment U of the time T that it would have needed.
 */

import { TICK, toGrid } from '../../engine/clock.js';
import type { Law } from '../../engine/quantiles.js';
import type { Uniform } from '../../engine/random.js';
import { lawOf } from '../../models/growth.js';
import type { CropPlan, Growing, Plan } from '../../models/plan.js';

const HALF_TICK = TICK / 2;
/** The largest and smallest uniform numbers that the simulator draws. */
const LEAST_DRAW = 2 ** -33;
const MOST_DRAW = 1 - LEAST_DRAW;
/** Points at which P(U T > age) is summed. */
const POINTS = 64;
/** Half the width of what counts as the same time when times are compared [d]. */
const NEAR = 0.01;

export class Course {
  /** Probability that a seed sprouts; 1 behind the first stage. */
  readonly germination: number;
  readonly loss: number;
  /** Days that a ready plant stays good [d]. */
  readonly keeps: number;
  readonly #law: Law;
  readonly #one = new Float64Array(1);
  readonly #dying = new Map<number, number>();

  constructor({ time, loss, keeps }: Growing, germination: number) {
    this.germination = germination;
    this.loss = loss;
    this.keeps = toGrid(keeps);
    this.#law = lawOf(time);
  }

  /** P(T <= age) */
  readyBy(age: number): number {
    return this.#law.share(age + HALF_TICK);
  }

  /** P(T > age) */
  beyond(age: number): number {
    return 1 - this.readyBy(age);
  }

  /** How likely times near `age` are, beside others: the law's mass within a hundredth of a day of it. */
  near(age: number): number {
    return this.#law.share(age + NEAR) - this.#law.share(age - NEAR);
  }

  /** P(U T > age): the mean of 1 - age/T over the times beyond. */
  dyingBeyond(age: number): number {
    if (age <= 0) return 1;
    let chance = this.#dying.get(age);
    if (chance === undefined) {
      const from = this.readyBy(age);
      let sum = 0;
      for (let i = 0; i < POINTS; i++) {
        const time = this.#quantile(from + ((i + 0.5) / POINTS) * (1 - from));
        sum += Math.max(0, 1 - age / time);
      }
      chance = ((1 - from) * sum) / POINTS;
      this.#dying.set(age, chance);
    }
    return chance;
  }

  /**
   * A time from `least` to `most`, both on the grid, as the law has it there. Where the law has next to nothing, the limit
   * that is nearest to it.
   * @param most may be Infinity
   */
  timeWithin(least: number, most: number, u: number): number {
    const from = this.readyBy(least - TICK);
    const to = most === Infinity ? 1 : this.readyBy(most);
    const time = toGrid(this.#quantile(from + u * (to - from)));
    return Math.min(most, Math.max(least, time));
  }

  /** The age at which a lost plant dies that has not died by `age`. */
  deathBeyond(age: number, uniform: Uniform): number {
    const from = this.readyBy(age);
    // T beyond the age, taken with the chance 1 - age/T that its moment lies beyond as well.
    for (let i = 0; i < MOST_TRIES; i++) {
      const time = this.#quantile(from + uniform() * (1 - from));
      const moment = uniform() * time;
      if (moment > age) return Math.max(age + TICK, toGrid(moment));
    }
    return age + TICK;
  }

  #quantile(u: number): number {
    this.#one[0] = Math.min(MOST_DRAW, Math.max(LEAST_DRAW, u));
    this.#law.fill(this.#one, 1);
    return this.#one[0];
  }
}

/** Far more draws than it takes for a plant that can have lived so long. */
const MOST_TRIES = 10_000;

/** The courses of a crop in one stage: by the picks that a plant has given. */
export function coursesOf(plan: Plan, crop: CropPlan, stage: number): Course[] {
  const germination = stage === 0 ? crop.germination : 1;
  const first = new Course(crop.stages[stage]!, germination);
  if (stage < plan.stages.length - 1 || crop.regrow === null) return [first];
  const again = new Course(crop.regrow, 1);
  return [first, ...Array.from({ length: crop.cuts - 1 }, () => again)];
}
