/**
 * A season without luck: every plant takes the mean time of its stage, and seeds and plants are lost by their shares, evenly spread over
 * those that enter: of 10 seeds that sprout with 0.8 two fail, the third and the eighth. What dies does so at half of its time, the
 * mean moment. There is only one such season of a plan, so what it costs orders plans the same way everywhere.
 *
 * It is no mean of seasons with luck: nothing waits because plants happened to come together.
 */

import { TICK, toGrid } from '../engine/clock.js';
import type { Draws } from './growth.js';
import type { Season } from './ledger.js';
import { Line } from './line/line.js';
import { type Growing, growingOf, type Plan } from './plan.js';
import * as route from './route.js';

/** Shares are summed in doubles: what is a whole number but for rounding is one. */
const ROUNDING = 1e-9;

/** How many of the first `count` are met by something that meets this share of all. */
function metOf(count: number, share: number): number {
  return Math.floor(count * share + 0.5 + ROUNDING);
}

/** The fates of plants without luck, in the order in which they enter. */
class EvenDraws implements Draws {
  readonly times: Float64Array;
  readonly moments = new Float64Array(1);
  readonly sprouts = new Uint8Array(1);
  readonly #loss: number;
  readonly #failing: number;
  #seeds = 0;
  #sprouted = 0;

  /** @param germination probability that a seed sprouts; 1 in every stage but the first */
  constructor({ time, loss }: Growing, germination: number) {
    this.times = Float64Array.of(Math.max(TICK, toGrid(time.days)));
    this.#loss = loss;
    this.#failing = 1 - germination;
  }

  start(): void {
    this.#seeds = 0;
    this.#sprouted = 0;
  }

  take(): number {
    const failed = metOf(this.#seeds + 1, this.#failing) > metOf(this.#seeds, this.#failing);
    this.#seeds++;
    this.sprouts[0] = failed ? 0 : 1;
    this.moments[0] = 2;
    if (failed) return 0;
    // Of those that sprout the share of the loss dies; both shares together are then right.
    if (metOf(this.#sprouted + 1, this.#loss) > metOf(this.#sprouted, this.#loss)) this.moments[0] = 0.5;
    this.#sprouted++;
    return 0;
  }
}

/** The season of a plan without luck. */
export function lucklessSeason(plan: Plan): Season {
  const line = new Line(plan, {
    drawsOf: (c, s) => {
      const crop = plan.crops[c]!;
      if (s === plan.stages.length) return new EvenDraws(crop.regrow!, 1);
      return new EvenDraws(growingOf(crop, s, 0), s === route.first(crop) ? crop.germination : 1);
    },
  });
  return line.run(plan.seed, 0);
}
