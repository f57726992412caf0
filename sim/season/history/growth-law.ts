/**
 * What is likely of one growth (a crop in a stage, or between two picks), given what was seen of it.
 *
 * A plant that is lost dies at a uniform moment U of the time T that it would have needed.
 */

import { TICK, toGrid } from '../../engine/clock.js';
import type { Uniform } from '../../engine/random.js';
import { GrowingTime } from '../../models/growing-time.js';
import type { CropPlan, Growing } from '../../models/plan.js';
import * as route from '../../models/route.js';

/** Points at which P(U T > age) is summed. */
const POINTS = 64;

export class GrowthLaw extends GrowingTime {
  /** Probability that a seed sprouts; 1 behind the first stage. */
  readonly germination: number;
  readonly loss: number;
  /** Days that a ready plant stays good [d]. */
  readonly keeps: number;
  readonly #dying = new Map<number, number>();

  constructor({ time, loss, keeps }: Growing, germination: number) {
    super(time);
    this.germination = germination;
    this.loss = loss;
    this.keeps = toGrid(keeps);
  }

  /** P(U T > age): the mean of 1 - age/T over the times beyond. */
  dyingBeyond(age: number): number {
    if (age <= 0) return 1;
    let chance = this.#dying.get(age);
    if (chance === undefined) {
      const from = this.readyBy(age);
      let sum = 0;
      for (let i = 0; i < POINTS; i++) {
        const time = this.quantile(from + ((i + 0.5) / POINTS) * (1 - from));
        sum += Math.max(0, 1 - age / time);
      }
      chance = ((1 - from) * sum) / POINTS;
      this.#dying.set(age, chance);
    }
    return chance;
  }

  /** Of a lost plant that has not died by `age`: the age at which it dies, and the days that it would have needed. */
  deathBeyond(age: number, uniform: Uniform): { readonly dies: number; readonly needs: number } {
    const from = this.readyBy(age);
    // T beyond the age, taken with the chance 1 - age/T that its moment lies beyond as well.
    for (let i = 0; i < MOST_TRIES; i++) {
      const time = this.quantile(from + uniform() * (1 - from));
      const moment = uniform() * time;
      if (moment > age) {
        const dies = Math.max(age + TICK, toGrid(moment));
        return { dies, needs: Math.max(dies, time) };
      }
    }
    return { dies: age + TICK, needs: age + TICK };
  }

  /** The age at which a plant died or failed that lived at one age and did not at another [d]. */
  deathBetween(least: number, most: number, uniform: Uniform): number {
    const fails = (1 - this.germination) * this.within(least + TICK, most);
    const dies = this.germination * this.loss * (this.dyingBeyond(least) - this.dyingBeyond(most));
    const age =
      uniform() * (fails + dies) < fails
        ? this.timeWithin(least + TICK, most, uniform())
        : // Between two visits, death is about as likely at any time.
          toGrid(least + uniform() * (most - least));
    return Math.max(TICK, age);
  }
}

/** Far more draws than it takes for a plant that can have lived so long. */
const MOST_TRIES = 10_000;

/** The courses of a crop in one stage: by the picks that a plant has given. */
export function growthLawsOf(crop: CropPlan, stage: number): GrowthLaw[] {
  const germination = stage === route.first(crop) ? crop.germination : 1;
  const first = new GrowthLaw(crop.stages[stage]!, germination);
  if (!route.isLast(crop, stage) || crop.regrow === null) return [first];
  const again = new GrowthLaw(crop.regrow, 1);
  return [first, ...Array.from({ length: crop.cuts - 1 }, () => again)];
}
