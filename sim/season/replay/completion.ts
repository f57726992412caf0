/**
 * What a log leaves open of a crop that is cut several times, in the stage in which it is.
 *
 * Which plants were picked the log does not tell, so they are taken as history/cohorts.ts has them; drawn is when within its
 * limits a plant became ready, and what will become of those that still stand.
 */

import { streamAt, streamKey, type Uniform } from '../../engine/random.js';
import type { Draws } from '../../models/growth.js';
import type { Growing, Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { ShareOf } from './spread.js';

export class StageCompletion {
  readonly shareOf: ShareOf;
  readonly #growing: Growing;
  readonly #germination: number;
  readonly #standing: Uniform;

  /** @param number of the completion */
  constructor(number: number, plan: Plan, crop: number, stage: number) {
    const { name, stages, germination } = plan.crops[crop]!;
    const stream = (what: string): Uniform =>
      streamAt(plan.seed, number, streamKey([name, plan.stages[stage]!.name, what]));
    this.shareOf = stream('not seen');
    this.#growing = stages[stage]!;
    this.#germination = stage === route.first(plan.crops[crop]!) ? germination : 1;
    this.#standing = stream('still standing');
  }

  /** Plants that still stand may fail or die yet, as the plan has it: at an even moment of their time, so beyond that which they have stood. */
  still(draws: Draws, place: number, count: number, stood: number): void {
    const { loss } = this.#growing;
    const fails = 1 - this.#germination;
    for (let k = place; k < place + count; k++) {
      const days = draws.times[k]!;
      const dies = this.#germination * loss * (1 - stood / days);
      const lives = this.#germination * (1 - loss);
      const u = this.#standing() * (fails + dies + lives);
      if (u < fails) draws.sprouts[k] = 0;
      else if (u < fails + dies) draws.moments[k] = (stood + this.#standing() * (days - stood)) / days;
    }
  }
}
