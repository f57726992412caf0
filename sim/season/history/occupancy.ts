/** What stood in every stage on every day, and which holes were out of use. A day is as its rows left it. */

import { toGrid } from '../../engine/clock.js';
import { summedUp } from '../../engine/lists.js';
import { holesOf, type Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { CohortsByStage } from './cohorts.js';
import type { LoggedSeason } from './logged-season.js';
import { type Rest, RestingChannels } from './resting-channels.js';

/** Figures of one stage, one entry a day. */
export interface StageDays {
  readonly holes: number;
  readonly standing: Int32Array;
  /** Holes out of use: resting after a plant has left, or named by a `clean` row. */
  readonly cleaning: Int32Array;
  /** Of these, holes that `clean` rows name. */
  readonly logged: Int32Array;
  /** Holes that were neither taken nor being cleaned; never below 0. */
  readonly empty: Int32Array;
  /** Day on which the first plant came in; Infinity if none did. */
  readonly firstEntry: number;
  /** Channels out of use according to `clean` rows. */
  readonly rests: readonly Rest[];
}

/** @param visits days on which holes whose cleaning is over come back into use */
export function occupancy(
  season: LoggedSeason,
  cohorts: CohortsByStage,
  visits: readonly number[],
): StageDays[] {
  return season.plan.stages.map((stage, s) => {
    const holes = holesOf(stage);
    const standing = standingOf(season, cohorts, s);
    const resting = new RestingChannels(season, s, holes, standing);
    const cleaning = cleaningAfterPlants(season, cohorts, s, visits, resting.holesTaken);
    const empty = new Int32Array(season.days);
    for (let day = 0; day < season.days; day++) {
      const room = Math.max(0, holes - standing[day]!);
      // Where more came in than was left, somebody used holes before their cleaning was over.
      cleaning[day] = Math.min(room, cleaning[day]! + resting.level[day]!);
      empty[day] = room - cleaning[day]!;
    }
    return {
      holes,
      standing,
      cleaning,
      logged: resting.level,
      empty,
      firstEntry: cohorts[s]![0]?.from ?? Infinity,
      rests: resting.rests,
    };
  });
}

function standingOf({ days, plan }: LoggedSeason, cohorts: CohortsByStage, s: number): Int32Array {
  const level = new Int32Array(days);
  const jump = (day: number, by: number): void => {
    if (day < days) level[day]! += by;
  };
  for (const cohort of cohorts[s]!) jump(cohort.from, cohort.count);
  for (const cohort of stageCohorts(cohorts, s, plan)) {
    for (const { to, count, vacates } of cohort.stays) if (vacates) jump(to, -count);
  }
  return summedUp(level);
}

/** All lots whose plants stand in a stage, those that regrow there included. */
export function stageCohorts(
  cohorts: CohortsByStage,
  s: number,
  plan: Plan,
): readonly CohortsByStage[number][number][] {
  const regrown = cohorts[plan.stages.length]!;
  return route.isLast(plan, s) && regrown.length > 0 ? [...cohorts[s]!, ...regrown] : cohorts[s]!;
}

/**
 * Holes that rest after a plant has left: for the plan's days, and then until a visit takes them back into use.
 * @param taken holes of those left on a day that a `clean` row names as well: they count there
 */
function cleaningAfterPlants(
  { plan, days }: LoggedSeason,
  cohorts: CohortsByStage,
  s: number,
  visits: readonly number[],
  taken: (day: number, left: number) => number,
): Int32Array {
  const level = new Int32Array(days);
  const cleanDays = toGrid(plan.stages[s]!.cleanDays);
  if (cleanDays === 0) return level;
  const left = new Int32Array(days);
  for (const cohort of stageCohorts(cohorts, s, plan)) {
    for (const { to, count, vacates } of cohort.stays) if (vacates) left[to]! += count;
  }
  let next = 0;
  for (let day = 0; day < days; day++) {
    if (left[day] === 0) continue;
    while (next < visits.length && visits[next]! < day + cleanDays) next++;
    const holes = left[day]! - taken(day, left[day]!);
    level[day]! += holes;
    const back = visits[next] ?? days;
    if (back < days) level[back]! -= holes;
  }
  return summedUp(level);
}
