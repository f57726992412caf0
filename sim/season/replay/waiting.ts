/** How many plants of a stage stood ready on each day and waited for somebody to move them on: an estimate. */

import { summedUp } from '../../engine/lists.js';
import { GrowingTime } from '../../models/growing-time.js';
import type { CohortsByStage } from '../history/cohorts.js';
import type { LoggedSeason } from '../history/logged-season.js';
import type { Readiness } from '../history/readiness.js';
import { spreadLikely } from './spread.js';

/** Of a larger stay so many moments are looked at, each for as many plants. */
const MOST_MOMENTS = 16;

/**
 * Ready plants of stage `s`, one entry a day: from the day nearest to when each became ready, as the plan's growing times
 * and the log's limits make likely (see readiness.ts), to the day before it left.
 */
export function waitingPlants(
  { plan, days }: LoggedSeason,
  s: number,
  cohorts: CohortsByStage,
  readiness: Readiness,
): Float64Array {
  const waiting = new Float64Array(days);
  const likely = plan.crops.map(({ stages }) => GrowingTime.of(stages[s]!));
  /** Many lots are alike: whole days of waiting before leaving, by limits and number. */
  const known = new Map<string, Float64Array>();
  for (const cohort of cohorts[s]!) {
    for (const stay of cohort.stays) {
      if (stay.end !== 'on' && stay.end !== 'standing') continue;
      const { earliest, latest } = readiness.of(cohort, stay);
      const time = likely[cohort.crop]!;
      const [least, most] = [time.grown(cohort.from, earliest), time.grown(cohort.from, latest)];
      const n = Math.min(stay.count, MOST_MOMENTS);
      const key = `${cohort.crop} ${least} ${most} ${n}`;
      let times = known.get(key);
      if (times === undefined) {
        times = new Float64Array(n);
        spreadLikely(time, least, most, times);
        known.set(key, times);
      }
      const leaves = Math.min(stay.to, days);
      for (let i = 0; i < n; i++) {
        const from = Math.max(cohort.seen, Math.round(time.whenGrown(cohort.from, times[i]!)));
        if (from >= leaves) continue;
        waiting[from]! += stay.count / n;
        if (leaves < days) waiting[leaves]! -= stay.count / n;
      }
    }
  }
  return summedUp(waiting);
}
