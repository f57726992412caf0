/**
 * The days on which somebody tended the line, for the fit: each date with a row, and each planned visit at
 * which, it seems, there was nothing to do.
 *
 * That nothing was done tells that nothing was ready, if somebody came. If nobody did, times would come out
 * far too long and their spread wide. So a planned visit without a row does not count if a sowing was due
 * between the rows around it (see replay/attendance.ts), or if these are more than SILENCE days apart, or more than twice
 * the usual gap between rows, and more than one planned visit lies between.
 */

import { dayFrom } from '../../models/dates.js';
import type { Plan } from '../../models/plan.js';
import { attendance, usualGap } from '../history/attendance.js';
import { loggedSeason } from '../history/logged-season.js';
import { lotsOf } from '../history/stays.js';
import type { LogRow } from '../log/rows.js';

/**
 * Rows further apart than this mean that nobody came in between [d]: in a line that holds plants something is
 * always due.
 */
const SILENCE = 10;

/**
 * @param rows at least one, by date
 * @returns days from the first row, ascending [d]
 */
export function attendedDays(rows: readonly LogRow[], plan: Plan | null): number[] {
  const from = rows[0]!.date;
  const logged = [...new Set(rows.map(({ date }) => date))].map((date) => dayFrom(from, date));
  const planned = plan === null ? [] : plannedVisits(rows, plan, dayFrom(from, plan.start));
  const days = [...logged];
  const silence = Math.min(SILENCE, 2 * usualGap(logged));
  for (const [i, day] of logged.entries()) {
    const next = logged[i + 1] ?? day;
    const silent = planned.filter((visit) => visit > day && visit < next);
    if (silent.length < 2 || next - day <= silence) days.push(...silent);
  }
  return days.sort((a, b) => a - b);
}

/** @param shift from the first row to the start of the plan [d] */
function plannedVisits(rows: readonly LogRow[], plan: Plan, shift: number): number[] {
  // With `always` somebody comes every day.
  if (plan.visits.kind === 'always') return Array.from({ length: 7 * plan.weeks }, (_, day) => day + shift);
  const framing = loggedSeason(rows, plan, true);
  // A log that reaches beyond the plan's season can still be fitted; who came cannot be judged then.
  const days = framing.ok ? attendance(framing.season, lotsOf(framing.season)).visits : plan.visits.days;
  return days.map((day) => day + shift);
}
