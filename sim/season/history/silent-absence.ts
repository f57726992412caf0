/**
 * Absences that no sowing betrays: all cells were taken, or crops are sown by `refill`.
 *
 * Planned visits without a row may have found nothing to do. But where they are more than twice as long a gap as is usual between
 * days with rows, and heads stood by then of which some would all but certainly have been ready, nobody came.
 */

import { power } from '../../engine/power.js';
import { GrowingTime } from '../../models/growing-time.js';
import { growingOf } from '../../models/plan.js';
import * as route from '../../models/route.js';
import { type Attendance, usualGap } from './attendance.js';
import type { CohortsByStage } from './cohorts.js';
import type { LoggedSeason } from './logged-season.js';
import { stageCohorts } from './occupancy.js';

/** What is less likely than this was not. */
const CANNOT_BE = 1e-6;

/** @returns the attendance without visits on which nobody can have come */
export function withoutSilentAbsences(
  season: LoggedSeason,
  cohorts: CohortsByStage,
  came: Attendance,
): Attendance {
  const { plan, planned, events } = season;
  // Heads that are wanted on some days only may stand for long.
  if (!planned || plan.want !== null) return came;
  const logged = [...new Set(events.map(({ day }) => day))];
  const long = 2 * usualGap(logged);
  const heads = stageCohorts(cohorts, route.last(plan), plan);
  const absent = new Set<number>();
  logged.slice(1).forEach((until, i) => {
    const since = logged[i]!;
    const silent = came.visits.filter((day) => since < day && day < until);
    const last = silent.at(-1);
    if (until - since <= long || last === undefined) return;
    let chance = 1;
    for (const { crop, phase, from, stays } of heads) {
      if (from > since) continue;
      const time = GrowingTime.of(growingOf(plan.crops[crop]!, route.last(plan), phase));
      const left = stays
        .filter(({ to, end }) => to >= until && end !== 'died' && end !== 'failed')
        .reduce((sum, { count }) => sum + count, 0);
      // Not ready by the last of these visits, though it was not at the one before them.
      if (left > 0)
        chance *= power(time.beyond(time.grown(from, last)) / time.beyond(time.grown(from, since)), left);
    }
    if (chance < CANNOT_BE) for (const day of silent) absent.add(day);
  });
  if (absent.size === 0) return came;
  return {
    visits: came.visits.filter((day) => !absent.has(day)),
    missed: [...came.missed, ...absent].sort((a, b) => a - b),
  };
}
