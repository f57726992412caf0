/**
 * One of the ways in which what a log does not show can have been.
 *
 * Times are drawn from the plan's growing times within the limits that the log sets. Which plant of those that came into a stage on
 * one day left when is drawn too, and what will become of those that still stand. Streams are addressed, so a completion that
 * differs in one thing (a batch that did not fail) is the same in all else.
 */

import { TICK, toGrid } from '../../engine/clock.js';
import { streamAt, streamKey, type Uniform } from '../../engine/random.js';
import type { GrowingTime } from '../../models/growing-time.js';
import type { Draws } from '../../models/growth.js';
import type { Growing, Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { Cohort, Stay } from '../history/cohorts.js';
import type { ShareOf } from './spread.js';

export interface Completion {
  /** Which of them. */
  readonly number: number;
  /** Chance that a plant of a batch that was lost in a stage would have been lost all the same. */
  readonly lostAllTheSame: (batch: number, stage: number) => number;
  /** Growing times of a crop in a stage, as a multiple of those that were seen. */
  readonly pace: (crop: number, stage: number) => number;
}

/** Plants of one stay, with what the log says of when they became ready. */
interface Seen {
  readonly cohort: Cohort;
  readonly stay: Stay;
  readonly ready: boolean;
  /** The least time that they took [d]. */
  readonly least: number;
  readonly time: GrowingTime;
}

/** The completion of one crop in one stage. */
export class StageCompletion {
  readonly shareOf: ShareOf;
  readonly #completion: Completion;
  readonly #crop: number;
  readonly #stage: number;
  readonly #growing: Growing;
  readonly #germination: number;
  /** Whether it matters not which of those that came on one day is which: with one cut. */
  readonly #alike: boolean;
  readonly #standing: Uniform;
  readonly #revived: Uniform;
  readonly #order: Uniform;

  constructor(completion: Completion, plan: Plan, crop: number, stage: number) {
    const { name, stages, germination, cuts } = plan.crops[crop]!;
    const stream = (what: string): Uniform =>
      streamAt(plan.seed, completion.number, streamKey([name, plan.stages[stage]!.name, what]));
    this.shareOf = stream('not seen');
    this.#completion = completion;
    this.#crop = crop;
    this.#stage = stage;
    this.#growing = stages[stage]!;
    this.#germination = stage === route.first(plan.crops[crop]!) ? germination : 1;
    this.#alike = cuts === 1;
    this.#standing = stream('still standing');
    this.#revived = stream('not lost');
    this.#order = stream('order');
  }

  /** Draw what the log leaves open of the plants of a stay, the first of which is at `place`. */
  complete(draws: Draws, place: number, { cohort, stay, ready, least, time }: Seen): void {
    const lostAllTheSame = this.#completion.lostAllTheSame(cohort.batch, this.#stage);
    const pace = this.#completion.pace(this.#crop, this.#stage);
    for (let k = place; k < place + stay.count; k++) {
      if (stay.end === 'standing') this.#still(draws, k, least);
      if (pace !== 1) draws.times[k] = Math.max(TICK, toGrid(draws.times[k]! * pace));
      if (ready || this.#revived() < lostAllTheSame) continue;
      draws.times[k] = Math.max(TICK, toGrid(time.quantile(this.#revived())));
      draws.moments[k] = 2;
      draws.sprouts[k] = 1;
    }
  }

  /** A plant that still stands may fail or die yet, as the plan has it: at an even moment of its time, so beyond that which it has stood. */
  #still(draws: Draws, k: number, stood: number): void {
    const days = draws.times[k]!;
    const { loss } = this.#growing;
    const fails = 1 - this.#germination;
    const dies = this.#germination * loss * (1 - stood / days);
    const lives = this.#germination * (1 - loss);
    const u = this.#standing() * (fails + dies + lives);
    if (u < fails) draws.sprouts[k] = 0;
    else if (u < fails + dies) draws.moments[k] = (stood + this.#standing() * (days - stood)) / days;
  }

  /** Mix the fates of those that came in on the same day. @param cohorts whose fates they are, in the same order */
  mixed({ times, moments, sprouts }: Draws, cohorts: readonly Cohort[]): void {
    if (!this.#alike) return;
    let from = 0;
    for (let c = 0, place = 0; c < cohorts.length; c++) {
      place += cohorts[c]!.count;
      if (cohorts[c + 1]?.from === cohorts[c]!.from) continue;
      for (let k = place - 1; k > from; k--) {
        const other = from + Math.floor(this.#order() * (k - from + 1));
        for (const fates of [times, moments, sprouts]) [fates[k], fates[other]] = [fates[other]!, fates[k]!];
      }
      from = place;
    }
  }
}
