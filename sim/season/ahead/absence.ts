/**
 * Sowings whose plants would be thrown away because nobody is there: the same futures once with the absences and once with
 * all visits, and the difference of what is thrown away of each sowing by the visit at which most of it is.
 */

import { groupedBy, sumOf } from '../../engine/lists.js';
import { isoOfDay } from '../../models/dates.js';
import type { Plan } from '../../models/plan.js';
import { dailyVisits } from '../history/plan-days.js';
import { cutShort } from './coming-season.js';
import { type FuturesSetup, runFutures } from './futures.js';
import { longestWay } from './seeds-that-fit.js';
import type { SownSeen } from './thrown-watch.js';

export interface LostToAbsence {
  /** ISO date of the visit at which they are sown. */
  readonly date: string;
  readonly crop: string;
  /** Sown seeds on average, and how many of them are thrown away because nobody is there. */
  readonly seeds: number;
  readonly thrown_away: number;
  /** ISO dates: the last visit before the absence, and the one at which most of them are thrown away. */
  readonly since: string;
  readonly on: string;
}

/** Futures that are run of each of the two, at most. */
const FUTURES = 50;
/** A sowing is told of which at least this share is lost in this way. */
const LEAST_SHARE = 0.25;

export function absenceRuns(futures: number): number {
  return 2 * Math.min(FUTURES, futures);
}

/** Weeks that a plan should have for this. @param to the end of the sowings that are looked at [d from the start] */
export function weeksUntilThrown(plan: Plan, to: number): number {
  return Math.ceil((to + longestWay(plan)) / 7) + 1;
}

/**
 * @param attended the same plan with all visits; null if nobody is ever away
 * @param from first day of the sowings that are looked at [d from the start]
 * @param to their end, not included
 * @returns in the order of the sowings; null if `pause` said to stop
 */
export async function lostToAbsence(
  plan: Plan,
  attended: Plan | null,
  from: number,
  to: number,
  futures: number,
  setup: FuturesSetup,
): Promise<LostToAbsence[] | null> {
  if (attended === null) return [];
  const weeks = Math.min(plan.weeks, attended.weeks, weeksUntilThrown(plan, to));
  const visits = dailyVisits(plan);
  const there = new Set(visits);
  const lastMissing = dailyVisits(attended).findLast((day) => day < 7 * weeks && !there.has(day)) ?? 0;
  if (!visits.some((day) => day >= from && day < Math.min(to, lastMissing))) return [];
  const few = Math.min(FUTURES, futures);
  const away = await runFutures(cutShort(plan, weeks), few, setup, 'thrown', { from, to });
  const present = away && (await runFutures(cutShort(attended, weeks), few, setup, 'thrown', { from, to }));
  if (away === null || present === null) return null;
  const keyOf = ({ day, crop }: SownSeen): string => `${day} ${crop}`;
  const others = groupedBy(present.flat(), keyOf);
  const iso = (day: number): string => isoOfDay(plan.start, day);
  return [...groupedBy(away.flat(), keyOf)]
    .flatMap(([key, sown]): (LostToAbsence & { readonly day: number })[] => {
      const thrown = sown.flatMap(({ thrownOn }) => thrownOn);
      if (thrown.length === 0) return [];
      const on = mostCommon(thrown);
      // Those that would be thrown away later anyhow, as not wanted, are thrown away by then for the absence all the same.
      const share = shareThrown(sown, on) - shareThrown(others.get(key) ?? [], on);
      if (share < LEAST_SHARE) return [];
      const { day, crop } = sown[0];
      const seeds = sumOf(sown.map((one) => one.seeds)) / few;
      const since = visits.findLast((visit) => visit < on)!;
      const [date, name] = [iso(day), plan.crops[crop]!.name];
      return [{ day, date, crop: name, seeds, thrown_away: share * seeds, since: iso(since), on: iso(on) }];
    })
    .sort((a, b) => a.day - b.day)
    .map(({ day: _, ...one }) => one);
}

/** Share of the seeds whose plants are thrown away by a day. */
function shareThrown(sown: readonly SownSeen[], by: number): number {
  const seeds = sumOf(sown.map((one) => one.seeds));
  const thrown = sown.flatMap(({ thrownOn }) => thrownOn.filter(({ day }) => day <= by));
  return seeds === 0 ? 0 : sumOf(thrown.map(({ plants }) => plants)) / seeds;
}

/** The day on which most plants are thrown away. @param thrown at least one day */
function mostCommon(thrown: SownSeen['thrownOn']): number {
  const plants = new Map<number, number>();
  for (const one of thrown) plants.set(one.day, (plants.get(one.day) ?? 0) + one.plants);
  return [...plants].reduce((most, one) => (one[1] > most[1] ? one : most))[0];
}
