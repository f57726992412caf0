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
  /** Draws taken in the last season, and how many of them were beyond those seen. */
  taken = 0;
  beyond = 0;
  readonly #key: StreamKey;
  #again: Uniform = () => 0;

  constructor(count: number, name: readonly string[]) {
    this.times = new Float64Array(count);
    this.moments = new Float64Array(count).fill(2);
    this.sprouts = new Uint8Array(count).fill(1);
    this.#key = streamKey([...name, 'seen again']);
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
  const time = new GrowingTime(growing.time);
  const plants = cohorts.reduce((sum, { count }) => sum + count, 0);
  const draws = new ObservedDraws(plants, name);
  const shareOf = completion?.shareOf;
  let place = 0;
  for (const [cohort, stay] of cohorts.flatMap((lot) => lot.stays.map((one) => [lot, one] as const))) {
    const { ready, earliest, latest } = readiness.of(cohort, stay);
    const times = draws.times.subarray(place, place + stay.count);
    const [least, most] = [earliest - cohort.from, latest - cohort.from];
    if (ready || stay.end === 'failed') spreadLikely(time, least, most, times, shareOf);
    else spreadEvenly(least, most, times, shareOf);
    if (!ready && stay.end === 'failed') draws.sprouts.fill(0, place, place + stay.count);
    else if (!ready) {
      // It died at half of a time that it did not live to see.
      for (let i = 0; i < times.length; i++) times[i]! *= 2;
      draws.moments.fill(0.5, place, place + stay.count);
    }
    completion?.complete(draws, place, { cohort, stay, ready, least, time });
    place += stay.count;
  }
  completion?.mixed(draws, cohorts);
  return draws;
}
