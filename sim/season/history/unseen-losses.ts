/**
 * Plants that a log never mentions again: a seed that failed and was cleared without a row.
 *
 * A plant that still stands by the log, though fewer than 1 in 100 such plants would still grow, is taken to have been lost
 * unseen: cleared at the first visit by which 99 in 100 would have been ready. Else its hole would count as taken for ever,
 * and the stage as full. Who may be ready and wait for a hole is not counted among them, but where there is room for.
 */

import { sumOf } from '../../engine/lists.js';
import * as route from '../../models/route.js';
import type { CohortsByStage } from './cohorts.js';
import type { LoggedEvent, LoggedSeason } from './logged-season.js';
import { type OverdueLot, overdueLots, surplusIn } from './overdue.js';
import type { Readiness } from './readiness.js';

/**
 * The losses of plants that must be gone.
 * @param visits of the season [d] @param readiness of each stage
 */
export function unseenLosses(
  season: LoggedSeason,
  cohorts: CohortsByStage,
  visits: readonly number[],
  readiness: readonly Readiness[],
): LoggedEvent[] {
  const { plan } = season;
  return plan.stages.flatMap((_, s) =>
    goneFrom(season, cohorts, s, readiness[s]!).map(
      ({ cohort: { batch, crop, from, seen }, count, ready }): LoggedEvent => ({
        day: visits.find((visit) => visit >= ready && visit > seen) ?? visits.at(-1)!,
        action: 'lose',
        batch,
        stage: s,
        channel: null,
        count,
        grams: null,
        loss: s === route.first(plan.crops[crop]!) ? 'failed' : 'died',
        since: null,
        lot: from,
      }),
    ),
  );
}

function goneFrom(
  { plan, days }: LoggedSeason,
  cohorts: CohortsByStage,
  s: number,
  readiness: Readiness,
): OverdueLot[] {
  // Of a plant with several cuts a log does not tell which pick was its last.
  const lots = cohorts[s]!.filter(({ crop }) => plan.crops[crop]!.cuts === 1 || !route.isLast(plan, s));
  const gone = overdueLots(plan, lots, s, (cohort, stay) => readiness.of(cohort, stay).earliest);
  let left = surplusIn(plan, cohorts, s) - sumOf(gone.map(({ count }) => count));
  if (left <= 0) return gone;
  const others = lots.filter((lot) => !gone.some(({ cohort }) => cohort === lot));
  for (const lot of overdueLots(plan, others, s, () => days)) {
    const count = Math.min(left, lot.count);
    if (count > 0) gone.push({ ...lot, count });
    left -= count;
  }
  return gone;
}
