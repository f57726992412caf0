/**
 * What is wrong with a log beside a scenario: the checks that fit, replay, ahead, chores and watch all make.
 *
 * A season that goes on behind the scenario's last week is none: whoever reads such a log has the plan go on too.
 */

import { sumOf } from '../../engine/lists.js';
import { holesOf, type Plan } from '../../models/plan.js';
import { faultOfRows, type LogFault } from '../log/faults.js';
import type { LogRow } from '../log/rows.js';
import { seasonOfRows } from './bare-plan.js';
import { type CohortsByStage, cohortsOf } from './cohorts.js';
import { cropless, type LoggedSeason, rowsBefore, rowsFarBehind } from './logged-season.js';
import { overdueLots, surplusIn } from './overdue.js';

/**
 * @param rows as `readLog` hands them out for the plan's stages and crops
 * @returns every fault; none if the log can be one of this line
 */
export function logFaults(rows: readonly LogRow[], plan: Plan): LogFault[] {
  const faults = [...rowsBefore(rows, plan), ...rowsFarBehind(rows, plan), ...cropless(rows, plan)];
  if (faults.length > 0 || rows.length === 0) return faults;
  const season = seasonOfRows(rows, plan);
  return crowded(rows, season, cohortsOf(season));
}

/**
 * More plants than holes, even without those that must be gone: the log belongs to a line of other stages.
 * @param rows at least one
 */
export function crowded(
  rows: readonly LogRow[],
  { plan, events }: LoggedSeason,
  cohorts: CohortsByStage,
): LogFault[] {
  const over = events.at(-1)!.day + 1;
  return plan.stages.flatMap((stage, s) => {
    const surplus = surplusIn(plan, cohorts, s);
    if (surplus === 0) return [];
    const overdue = overdueLots(plan, cohorts[s]!, s, () => over);
    if (surplus <= sumOf(overdue.map(({ count }) => count))) return [];
    const holes = holesOf(stage);
    const last = rows.findLast((row) => row.stage === stage.name)!;
    return [
      faultOfRows([last], {
        column: null,
        found: `${holes + surplus} plants in ${stage.name} after the last row`,
        expected: `at most ${holes}, for the scenario has so many holes there`,
        advice: 'Set channels and holes of the stage in the scenario, or log what was lost.',
      }),
    ];
  });
}
