/**
 * The days on which somebody tended the line, for the fit: each date with a row, and each planned visit at
 * which, it seems, there was nothing to do.
 *
 * That nothing was done tells that nothing was ready, if somebody came. If nobody did, times would come out
 * far too long and their spread wide. So a planned visit without a row does not count if a sowing was due
 * between the rows around it (see history/attendance.ts), or if these are more than SILENCE days apart, or more than twice
 * the usual gap between rows, and more than one planned visit lies between.
 */

import type { Plan } from '../../models/plan.js';
import { attendance, usualGap } from '../history/attendance.js';
import type { CohortsByStage } from '../history/cohorts.js';
import type { LoggedSeason } from '../history/logged-season.js';
import { dailyVisits } from '../history/plan-days.js';

/**
 * Rows further apart than this mean that nobody came in between [d]: in a line that holds plants something is
 * always due.
 */
const SILENCE = 10;

/**
 * @param season of at least one row
 * @param plan as it was given; null if there is none
 * @returns ascending [d from the start of the season]
 */
export function attendedDays(season: LoggedSeason, cohorts: CohortsByStage, plan: Plan | null): number[] {
  const logged = [...new Set(season.events.map(({ day }) => day))];
  const planned = plan === null ? [] : plannedVisits(season, cohorts, plan);
  const days = [...logged];
  const silence = Math.min(SILENCE, 2 * usualGap(logged));
  for (const [i, day] of logged.entries()) {
    const next = logged[i + 1] ?? day;
    const silent = planned.filter((visit) => visit > day && visit < next);
    if (silent.length < 2 || next - day <= silence) for (const one of silent) days.push(one);
  }
  return days.sort((a, b) => a - b);
}

function plannedVisits(season: LoggedSeason, cohorts: CohortsByStage, plan: Plan): readonly number[] {
  // With `always` somebody comes every day. Of a log that reaches beyond the plan's season it cannot be judged who came.
  const beyond = season.plan.start !== plan.start || season.plan.weeks !== plan.weeks;
  if (plan.visits.kind === 'always' || beyond) return dailyVisits(season.plan);
  return attendance(season, cohorts).visits;
}
