/**
 * Where the hole-days went, as far as a log can tell.
 *
 * A log tells on which days a hole was taken, but not when what stood in it became ready or died. So the states of
 * the simulator's ledger come in groups:
 *
 * - occupied = growing + dead + unattended + blocked + held. Told to the day, with one pick per plant.
 * - cleaning. Told as far as the plan's clean_days and the log's `clean` rows are kept to.
 * - empty = filling + untended + unsupplied. Told like `occupied`: it is the rest.
 *
 * What is told beyond that: of the occupied hole-days, how many at least held growing plants. Whatever still stood after a
 * visit that left holes free further on was not ready then. And of the empty ones, how many were before the first
 * plant came in; the simulator counts as filling only up to when a plant was first ready to come, which no log tells,
 * but for the first stage, where the two are the same.
 */

import { groupedBy } from '../../engine/lists.js';
import * as route from '../../models/route.js';
import type { Attendance } from '../history/attendance.js';
import type { CohortsByStage } from '../history/cohorts.js';
import { inTurn } from '../history/in-turn.js';
import type { LoggedSeason } from '../history/logged-season.js';
import type { StageDays } from '../history/occupancy.js';
import type { ShortVisits } from '../history/short-visits.js';
import { visitsBefore } from '../history/visits-before.js';

/** Hole-days of one stage [d]. */
export interface HoleDays {
  readonly occupied: number;
  readonly cleaning: number;
  readonly empty: number;
  /** Of `occupied`, those that held growing plants for certain; null with several cuts in the last stage. */
  readonly growing_at_least: number | null;
  /** Of `empty`, those before the first plant came in. */
  readonly filling: number;
  /** Hole-days of plants beyond the holes of the plan; 0 if log and plan agree. */
  readonly beyond: number;
}

export function holeDays(
  season: LoggedSeason,
  cohorts: CohortsByStage,
  stages: readonly StageDays[],
  short: readonly ShortVisits[],
  { visits }: Attendance,
): HoleDays[] {
  return stages.map(({ holes, standing, cleaning, empty, firstEntry }, s) => {
    let filling = 0;
    let beyond = 0;
    for (let day = 0; day < season.days; day++) {
      if (day < firstEntry) filling += empty[day]!;
      beyond += Math.max(0, standing[day]! - holes);
    }
    return {
      occupied: sum(standing),
      cleaning: sum(cleaning),
      empty: sum(empty),
      growing_at_least: growingForCertain(season, cohorts, s, visits, short[s]!),
      filling,
      beyond,
    };
  });
}

function sum(levels: Int32Array): number {
  return levels.reduce((total, level) => total + level, 0);
}

function growingForCertain(
  { plan, days }: LoggedSeason,
  cohorts: CohortsByStage,
  s: number,
  visits: readonly number[],
  short: ShortVisits,
): number | null {
  if (route.isLast(plan, s) && plan.crops.some(({ cuts }) => cuts > 1)) return null;
  const lastVisit = lastBefore(visits, days);
  const lastFree = lastBefore(
    visits.filter((_, i) => short[i] === 0),
    days,
  );
  let growing = 0;
  for (const lots of groupedBy(cohorts[s]!, ({ batch }) => batch).values()) {
    const entries = lots.map(({ seen, count }) => ({ day: seen, count }));
    const ends = lots.flatMap(({ stays }) =>
      stays.map(({ to, count, end, told }) => {
        // Who was found dead was alive and not ready at the visit before.
        const died = told && (end === 'died' || end === 'failed');
        return { day: (died ? lastVisit : lastFree)[Math.min(to, days)]!, count };
      }),
    );
    growing += leastTogether(entries, ends);
  }
  return growing;
}

/** Plants on a day. */
interface Some {
  readonly day: number;
  readonly count: number;
}

/**
 * Days from entry to end, summed over plants, where nobody knows which end is whose: at least as many as if those that
 * came first were first to end. (An end before an entry counts 0; a sum of convex functions of differences is least
 * when both are in order.)
 */
function leastTogether(entries: readonly Some[], ends: readonly Some[]): number {
  const sorted = [...ends].sort((a, b) => a.day - b.day);
  let sum = 0;
  inTurn(entries, sorted, ({ day: from }, { day: until }, count) => {
    sum += count * Math.max(0, until - from);
  });
  return sum;
}

/** For each day 0 .. days the last visit before it; -1 if there is none. */
function lastBefore(visits: readonly number[], days: number): Int32Array {
  return visitsBefore(visits, days).map((count) => visits[count - 1] ?? -1);
}
