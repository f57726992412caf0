/**
 * When plants became ready or died, as narrowly as the log and the rules of the line allow.
 *
 * A plant that moved on at a visit was not ready at the visit before, if that visit left holes free. If it did not, the
 * plant may have been ready earlier and have waited. Ready plants go in the order in which they became ready, so each
 * such visit has a cutoff: who went was ready by then, who stayed was not. Of a cutoff the log tells only limits;
 * within them it is taken to be when the last of those who went would have been ready after the plan's mean time.
 *
 * With these limits a season that was simulated from the plan comes out again, plant for plant, whatever is chosen
 * within them.
 */

import { TICK, toGrid } from '../../engine/clock.js';
import { growthClock } from '../../models/growth-clock.js';
import { growingOf } from '../../models/plan.js';
import type { Cohort, CohortsByStage, Stay } from './cohorts.js';
import type { LoggedSeason } from './logged-season.js';
import { stageCohorts } from './occupancy.js';
import type { ShortVisits } from './short-visits.js';
import { visitsBefore } from './visits-before.js';

/** Limits of the moment at which a plant became ready (`ready`) or died or proved a failed seed [d from the start]. */
export interface Moment {
  readonly ready: boolean;
  readonly earliest: number;
  /** Infinity if it may lie beyond what the log tells of. */
  readonly latest: number;
}

export class Readiness {
  readonly #visits: readonly number[];
  /** Place of the visit on a day, or of the next one. */
  readonly #visitAt: Int32Array;
  readonly #short: ShortVisits;
  /** Last visit before visit i that left nothing ready behind; -1 if there is none. */
  readonly #freeBefore: Int32Array;
  readonly #keeps: readonly number[];
  /** [d from the start], one a visit */
  readonly #cutoffs: Float64Array;
  /** Stretches of limited visits in which discarded plants cannot have been ready; by their `#freeBefore`. */
  readonly #doubtful = new Set<number>();

  constructor(
    { plan, days }: LoggedSeason,
    s: number,
    cohorts: CohortsByStage,
    visits: readonly number[],
    short: ShortVisits,
  ) {
    this.#visits = visits;
    this.#short = short;
    this.#visitAt = visitsBefore(visits, days);
    this.#freeBefore = new Int32Array(visits.length + 1).fill(-1);
    for (let i = 0; i < visits.length; i++)
      this.#freeBefore[i + 1] = short[i] === 0 ? i : this.#freeBefore[i]!;
    this.#keeps = plan.crops.map((crop) => toGrid(crop.stages[s]!.keeps));
    this.#cutoffs = new Float64Array(visits.length);
    const means = plan.crops.map((crop) => (phase: number, from: number) => {
      const growing = growingOf(crop, s, phase);
      return from + (growthClock(growing)?.daysFor(from, growing.time.days) ?? growing.time.days);
    });
    const here = stageCohorts(cohorts, s, plan);
    while (this.#setCutoffs(here, means)) {
      // Each round puts one stretch more in doubt, so there are no more rounds than stretches.
    }
  }

  /** What the log says of when the plants of a stay became ready or died. */
  of(cohort: Cohort, stay: Stay): Moment {
    const since = cohort.from + TICK;
    const keeps = this.#keeps[cohort.crop]!;
    if (stay.end === 'standing') {
      const last = this.#visits.length - 1;
      if (last < 0) return { ready: true, earliest: since, latest: Infinity };
      const earliest = Math.max(since, this.#cutoffs[last]! + TICK, this.#visits[last]! - keeps);
      return { ready: true, earliest, latest: Infinity };
    }
    const i = this.#visitAt[stay.to]!;
    const before = i === 0 ? -Infinity : this.#visits[i - 1]!;
    const cutBefore = i === 0 ? -Infinity : this.#cutoffs[i - 1]!;
    if (stay.end === 'discarded' && this.#discardable(cohort, i)) {
      const earliest = Math.max(since, cutBefore + TICK, before - keeps);
      return { ready: true, earliest, latest: stay.to - keeps - TICK };
    }
    if (stay.end === 'on' || stay.end === 'picked') {
      const earliest = Math.max(since, cutBefore + TICK, stay.to - keeps);
      return { ready: true, earliest, latest: Math.max(earliest, this.#cutoffs[i]!) };
    }
    const earliest = Math.max(since, before + TICK);
    return { ready: false, earliest, latest: Math.max(earliest, stay.to) };
  }

  /**
   * Choose the cutoff of each visit.
   * @returns true if discarded plants stood in the way: they are taken for dead ones, and the cutoffs are to be set again
   */
  #setCutoffs(
    cohorts: readonly Cohort[],
    means: readonly ((phase: number, from: number) => number)[],
  ): boolean {
    const visits = this.#visits;
    const short = this.#short;
    const went = new Uint8Array(visits.length);
    const least = new Float64Array(visits.length);
    const likely = new Float64Array(visits.length);
    const most = Float64Array.from(visits);
    for (const cohort of cohorts) {
      const keeps = this.#keeps[cohort.crop]!;
      const ready = means[cohort.crop]!(cohort.phase, cohort.from);
      for (const { to, end } of cohort.stays) {
        if (end !== 'on' && end !== 'picked' && end !== 'discarded') continue;
        const i = this.#visitAt[to]!;
        if (end !== 'discarded') {
          went[i] = 1;
          least[i] = Math.max(least[i]!, cohort.from + TICK, to - keeps);
          likely[i] = Math.max(likely[i]!, ready);
        } else if (i > 0 && short[i - 1] === 1 && this.#discardable(cohort, i)) {
          // Who was discarded was ready by then, and had not gone at the visits before.
          most[i - 1] = Math.min(most[i - 1]!, to - keeps - 2 * TICK);
        }
      }
    }
    for (let i = visits.length - 2; i >= 0; i--) {
      if (short[i] === 1 && short[i + 1] === 1)
        most[i] = Math.min(most[i]!, most[i + 1]! - went[i + 1]! * TICK);
    }
    let again = false;
    for (let i = 0; i < visits.length; i++) {
      const before = i === 0 ? 0 : this.#cutoffs[i - 1]!;
      if (short[i] === 0) this.#cutoffs[i] = visits[i]!;
      else if (went[i] === 0) this.#cutoffs[i] = before;
      else {
        const lowest = Math.max(least[i]!, before + TICK);
        if (lowest > most[i]! && most[i]! < visits[i]! && !this.#doubtful.has(this.#freeBefore[i]!)) {
          this.#doubtful.add(this.#freeBefore[i]!);
          again = true;
        }
        this.#cutoffs[i] = Math.max(lowest, Math.min(most[i]!, toGrid(likely[i]!)));
      }
    }
    return again;
  }

  /** Whether a plant that was thrown away at visit i can have been ready for too long, and yet not gone on before. */
  #discardable(cohort: Cohort, i: number): boolean {
    const free = this.#freeBefore[i]!;
    if (this.#doubtful.has(free)) return false;
    const latest = this.#visits[i]! - this.#keeps[cohort.crop]! - TICK;
    return latest > cohort.from && latest > (free < 0 ? -1 : this.#visits[free]!);
  }
}
