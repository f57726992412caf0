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

import * as route from '../../models/route.js';
import type { Attendance } from '../history/attendance.js';
import type { CohortsByStage } from '../history/cohorts.js';
import { inTurn } from '../history/in-turn.js';
import type { LoggedSeason } from '../history/logged-season.js';
import type { StageDays } from '../history/occupancy.js';
import type { ShortVisits } from '../history/short-visits.js';

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
  const lastVisit = lastBefore(visits, days, () => true);
  const lastFree = lastBefore(visits, days, (i) => short[i] === 0);
  let growing = 0;
  for (const { entries, ends } of comings(cohorts[s]!, ({ to, end, told }) => {
    // Who was found dead was alive and not ready at the visit before.
    const died = told && (end === 'died' || end === 'failed');
    return (died ? lastVisit : lastFree)[Math.min(to, days)]!;
  })) {
    growing += leastTogether(entries, ends);
  }
  return growing;
}

/** When plants of one batch came into a stage, and until when some of them were not ready. */
interface Comings {
  readonly entries: { day: number; count: number }[];
  readonly ends: { day: number; count: number }[];
}

function comings(
  cohorts: CohortsByStage[number],
  until: (stay: CohortsByStage[number][number]['stays'][number]) => number,
): Iterable<Comings> {
  const batches = new Map<number, Comings>();
  for (const cohort of cohorts) {
    let batch = batches.get(cohort.batch);
    if (batch === undefined) {
      batch = { entries: [], ends: [] };
      batches.set(cohort.batch, batch);
    }
    batch.entries.push({ day: cohort.from, count: cohort.count });
    for (const stay of cohort.stays) batch.ends.push({ day: until(stay), count: stay.count });
  }
  return batches.values();
}

/**
 * Days from entry to end, summed over plants, where nobody knows which end is whose: at least as many as if those that
 * came first were first to end. (An end before an entry counts 0; a sum of convex functions of differences is least
 * when both are in order.)
 */
function leastTogether(entries: Comings['entries'], ends: Comings['ends']): number {
  const sorted = ends.sort((a, b) => a.day - b.day);
  let sum = 0;
  inTurn(entries, sorted, ({ day: from }, { day: until }, count) => {
    sum += count * Math.max(0, until - from);
  });
  return sum;
}

/** For each day 0 .. days the last visit before it for which `counts` holds; -1 if there is none. */
function lastBefore(visits: readonly number[], days: number, counts: (visit: number) => boolean): Int32Array {
  const last = new Int32Array(days + 1).fill(-1);
  let next = 0;
  let latest = -1;
  for (let day = 0; day <= days; day++) {
    while (next < visits.length && visits[next]! < day) {
      if (counts(next)) latest = visits[next]!;
      next++;
    }
    last[day] = latest;
  }
  return last;
}
