/**
 * What is wrong with a log beside a scenario: the checks that fit, replay, ahead, chores and watch all make.
 *
 * A season that goes on behind the scenario's last week is none: whoever reads such a log has the plan go on too.
 */

import { groupedBy } from '../../engine/lists.js';
import { GrowingTime } from '../../models/growing-time.js';
import { holesOf, type Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import { faultOfRows, type LogFault } from '../log/faults.js';
import type { LogRow } from '../log/rows.js';
import { seasonOfRows } from './bare-plan.js';
import { type CohortsByStage, cohortsOf } from './cohorts.js';
import { cropless, type LoggedSeason, rowsBefore } from './logged-season.js';
import { stageCohorts } from './occupancy.js';
import { HARDLY } from './overdue.js';

/**
 * @param rows as `readLog` hands them out for the plan's stages and crops
 * @returns every fault; none if the log can be one of this line
 */
export function logFaults(rows: readonly LogRow[], plan: Plan): LogFault[] {
  const faults = [...rowsBefore(rows, plan), ...cropless(rows, plan)];
  if (faults.length > 0 || rows.length === 0) return faults;
  const season = seasonOfRows(rows, plan);
  return crowded(rows, season, cohortsOf(season), true);
}

/**
 * More plants than holes: the log belongs to a line of other stages.
 * @param unlogged whether plants may have been lost without a row that stand longer than nearly all of their kind grow: who goes
 * on from what stands needs them logged
 */
export function crowded(
  rows: readonly LogRow[],
  { plan, days }: LoggedSeason,
  cohorts: CohortsByStage,
  unlogged = false,
): LogFault[] {
  return plan.stages.flatMap((stage, s) => {
    const stands = leastStanding(plan, cohorts, s);
    const holes = holesOf(stage);
    if (stands <= holes) return [];
    if (unlogged && stands - overdueIn(plan, cohorts, s, days) <= holes) return [];
    const last = rows.findLast((row) => row.stage === stage.name)!;
    return [
      faultOfRows([last], {
        column: null,
        found: `${stands} plants in ${stage.name} after the last row`,
        expected: `at most ${holes}, for the scenario has so many holes there`,
        advice: 'Set channels and holes of the stage in the scenario, or log what was lost.',
      }),
    ];
  });
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

/** Plants that stand in a stage though fewer than 1 in 100 would still grow. */
function overdueIn(plan: Plan, cohorts: CohortsByStage, s: number, today: number): number {
  let overdue = 0;
  for (const { crop, from, since, stays } of cohorts[s]!) {
    const time = new GrowingTime(plan.crops[crop]!.stages[s]!.time);
    if (since !== null || time.beyond(today - from) >= HARDLY) continue;
    for (const { end, count } of stays) if (end === 'standing') overdue += count;
  }
  return overdue;
}
