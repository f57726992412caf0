/** Draws that are not drawn but were seen: the fates of plants, lot by lot, in the order of entry. */

import { type StreamKey, streamAt, streamKey, type Uniform } from '../../engine/random.js';
import { GrowingTime } from '../../models/growing-time.js';
import type { Draws } from '../../models/growth.js';
import type { Growing } from '../../models/plan.js';
import type { Cohort } from '../history/cohorts.js';
import type { Readiness } from '../history/readiness.js';
import type { StageCompletion } from './completion.js';
import { spreadEvenly, spreadLikely } from './spread.js';

/** Draws that were seen, in the order of entry. */
export class ObservedDraws implements Draws {
  readonly times: Float64Array;
  readonly moments: Float64Array;
  readonly sprouts: Uint8Array;
  /** Place of the batch of plants that were lost by the log, from 1 on; 0 for all others. */
  readonly lostOf: Int32Array;
  /** Draws taken in the last season, and how many of them were beyond those seen. */
  taken = 0;
  beyond = 0;
  readonly #name: readonly string[];
  readonly #key: StreamKey;
  #again: Uniform = () => 0;

  /** @param name of the crop and what it does: the address of its stream */
  constructor(count: number, name: readonly string[]) {
    this.#name = name;
    this.times = new Float64Array(count);
    this.moments = new Float64Array(count).fill(2);
    this.sprouts = new Uint8Array(count).fill(1);
    this.lostOf = new Int32Array(count);
    this.#key = streamKey([...name, 'seen again']);
  }

  copy(): ObservedDraws {
    const { times, moments, sprouts, lostOf } = this;
    const copy = new ObservedDraws(times.length, this.#name);
    copy.times.set(times);
    copy.moments.set(moments);
    copy.sprouts.set(sprouts);
    copy.lostOf.set(lostOf);
    return copy;
  }

  start(seed: number, season: number): void {
    this.taken = 0;
    this.beyond = 0;
    this.#again = streamAt(seed, season, this.#key);
  }

  take(): number {
    const k = this.taken++;
    if (k < this.times.length) return k;
    this.beyond++;
    return Math.floor(this.#again() * this.times.length);
  }
}

/** The fates of the plants of some lots, one after the other. */
export function drawsOfCohorts(
  cohorts: readonly Cohort[],
  name: readonly string[],
  readiness: Readiness,
  growing: Growing,
  completion: StageCompletion | null = null,
): ObservedDraws {
  const time = GrowingTime.of(growing);
  const plants = cohorts.reduce((sum, { count }) => sum + count, 0);
  const draws = new ObservedDraws(plants, name);
  const shareOf = completion?.shareOf;
  let place = 0;
  for (const [cohort, stay] of cohorts.flatMap((lot) => lot.stays.map((one) => [lot, one] as const))) {
    const { ready, earliest, latest } = readiness.of(cohort, stay);
    const times = draws.times.subarray(place, place + stay.count);
    const [least, most] = [time.grown(cohort.from, earliest), time.grown(cohort.from, latest)];
    if (ready || stay.end === 'failed') spreadLikely(time, least, most, times, shareOf);
    else spreadEvenly(least, most, times, shareOf);
    if (!ready) draws.lostOf.fill(cohort.batch + 1, place, place + stay.count);
    if (!ready && stay.end === 'failed') draws.sprouts.fill(0, place, place + stay.count);
    else if (!ready) {
      // It died at half of a time that it did not live to see.
      for (let i = 0; i < times.length; i++) times[i]! *= 2;
      draws.moments.fill(0.5, place, place + stay.count);
    }
    if (stay.end === 'standing') completion?.still(draws, place, stay.count, least);
    place += stay.count;
  }
  return draws;
}
