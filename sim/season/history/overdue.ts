/** What stands for so long that it must be gone: it failed or died, unseen or without a row. */

import { groupedBy } from '../../engine/lists.js';
import { GrowingTime } from '../../models/growing-time.js';
import { holesOf, type Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { Cohort, CohortsByStage, Stay } from './cohorts.js';
import { stageCohorts } from './occupancy.js';

/** Where fewer than so many of such plants would still grow, a plant is taken to be gone. */
export const HARDLY = 0.01;

/** Plants of a lot that must be gone. */
export interface OverdueLot {
  readonly cohort: Cohort;
  readonly count: number;
  /** By then 99 in 100 would have been ready [d from the start]. */
  readonly ready: number;
}

/**
 * The lots in a stage of which plants still stand, though fewer than 1 in 100 such plants would still grow.
 * @param readyBy before when none of them can have been ready [d from the start]
 */
export function overdueLots(
  plan: Plan,
  lots: readonly Cohort[],
  s: number,
  readyBy: (cohort: Cohort, stay: Stay) => number,
): OverdueLot[] {
  return lots.flatMap((cohort): OverdueLot[] => {
    const stay = cohort.stays.at(-1);
    if (stay?.end !== 'standing') return [];
    const time = GrowingTime.of(plan.crops[cohort.crop]!.stages[s]!);
    // What was found standing may have come in on the last day of its span.
    const from = cohort.since?.to ?? cohort.from;
    if (time.beyond(time.grown(from, readyBy(cohort, stay))) >= HARDLY) return [];
    return [{ cohort, count: stay.count, ready: time.whenGrown(from, time.quantile(1 - HARDLY)) }];
  });
}

/** Plants for which a stage has no hole, of those that stand there by a log; 0 if there is room for all. */
export function surplusIn(plan: Plan, cohorts: CohortsByStage, s: number): number {
  return Math.max(0, leastStanding(plan, cohorts, s) - holesOf(plan.stages[s]!));
}

/**
 * The fewest plants that can stand in a stage. Of those with several cuts a log does not say which were picked; as many as
 * possible have given all their picks.
 */
function leastStanding(plan: Plan, cohorts: CohortsByStage, s: number): number {
  let least = 0;
  for (const lots of groupedBy(stageCohorts(cohorts, s, plan), ({ batch }) => batch).values()) {
    const crop = plan.crops[lots[0].crop]!;
    let picked = 0;
    for (const { phase, count, stays } of lots) {
      if (phase === 0) least += count;
      for (const stay of stays) {
        if (stay.end === 'picked') picked += stay.count;
        else if (stay.end !== 'standing') least -= stay.count;
      }
    }
    least -= Math.floor(picked / (route.isLast(crop, s) ? crop.cuts : 1));
  }
  return least;
}
