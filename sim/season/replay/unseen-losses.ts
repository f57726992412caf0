/**
 * Plants that a log never mentions again: a seed that failed and was cleared without a row.
 *
 * A plant that still stands by the log, though fewer than 1 in 100 such plants would still grow, is taken to have been lost
 * unseen: cleared at the first visit by which 99 in 100 would have been ready. Else its hole would count as taken for ever,
 * and the stage as full.
 */

import { GrowingTime } from '../../models/growing-time.js';
import * as route from '../../models/route.js';
import type { CohortsByStage } from '../history/cohorts.js';
import type { LoggedEvent, LoggedSeason } from '../history/logged-season.js';
import { HARDLY } from '../history/overdue.js';
import type { Readiness } from './readiness.js';

/**
 * The losses of plants that must be gone.
 * @param visits of the season [d] @param readiness of each stage
 */
export function unseenLosses(
  { plan }: LoggedSeason,
  cohorts: CohortsByStage,
  visits: readonly number[],
  readiness: readonly Readiness[],
): LoggedEvent[] {
  return plan.stages.flatMap((_, s) =>
    cohorts[s]!.flatMap((cohort): LoggedEvent[] => {
      const { crop, batch, from } = cohort;
      const stay = cohort.stays.at(-1);
      // Of one that was found standing nobody may know since when it grows.
      if (cohort.since !== null) return [];
      // Of a plant with several cuts a log does not tell which pick was its last.
      if (stay?.end !== 'standing' || (plan.crops[crop]!.cuts > 1 && route.isLast(plan, s))) return [];
      const time = new GrowingTime(plan.crops[crop]!.stages[s]!.time);
      if (time.beyond(readiness[s]!.of(cohort, stay).earliest - from) >= HARDLY) return [];
      const ready = from + time.quantile(1 - HARDLY);
      const day = visits.find((visit) => visit >= ready) ?? visits.at(-1)!;
      const loss = s === route.first(plan.crops[crop]!) ? 'failed' : 'died';
      return [
        {
          day,
          action: 'lose',
          batch,
          stage: s,
          channel: null,
          count: stay.count,
          grams: null,
          loss,
          since: null,
        },
      ];
    }),
  );
}
