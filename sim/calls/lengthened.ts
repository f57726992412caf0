/** A plan that goes on for as long as is looked ahead, whatever the length of the scenario's season. */

import { dayFrom } from '../models/dates.js';
import type { Plan } from '../models/plan.js';
import { toPlan } from '../scenario/plan.js';
import type { Scenario } from '../scenario/schema.js';
import type { LogRow } from '../season/log/rows.js';

/**
 * @param rows of the log, in the order of their dates; none if nothing was done yet
 * @param today ISO 8601; if null, the date of the last row, or the start
 * @param weeks weeks that the plan must have, by the first day to come [d from the start]
 */
export function lengthened(
  scenario: Scenario,
  rows: readonly LogRow[],
  today: string | null,
  weeks: (plan: Plan, from: number) => number,
): Plan {
  const plan = toPlan(scenario);
  // A log that begins before the season is a fault, which is told with the season as the scenario has it.
  if (rows[0] !== undefined && rows[0].date < plan.start) return plan;
  const day = dayFrom(plan.start, today ?? rows.at(-1)?.date ?? plan.start);
  // Today's visit may be over or not: one day more does no harm.
  const needed = weeks(plan, Math.max(0, day + 1));
  return needed <= plan.weeks ? plan : toPlan({ ...scenario, weeks: needed });
}
