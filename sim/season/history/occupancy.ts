/** What stood in every stage on every day, and which holes were out of use. A day is as its rows left it. */

import { toGrid } from '../../engine/clock.js';
import { summedUp } from '../../engine/lists.js';
import { holesOf, type Plan, type StagePlan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { CohortsByStage } from './cohorts.js';
import type { LoggedSeason } from './logged-season.js';
import { type Rest, restingChannels } from './resting-channels.js';

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
    const standing = new Int32Array(season.days);
    const left = new Int32Array(season.days);
    for (const { seen, count } of cohorts[s]!) standing[seen]! += count;
    for (const { stays } of stageCohorts(cohorts, s, season.plan)) {
      for (const { to, count, vacates } of stays) if (vacates) left[to]! += count;
    }
    left.forEach((count, day) => {
      standing[day]! -= count;
    });
    summedUp(standing);
    const resting = restingChannels(season, s, holes, standing);
    const cleaning = cleaningAfterPlants(stage, left, resting.named, visits);
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
      firstEntry: cohorts[s]![0]?.seen ?? Infinity,
      rests: resting.rests,
    };
  });
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
 * @param left plants that left their holes, one entry a day
 * @param named holes that `clean` rows name, likewise: of those left on the day they count there
 */
function cleaningAfterPlants(
  stage: StagePlan,
  left: Int32Array,
  named: Int32Array,
  visits: readonly number[],
): Int32Array {
  const days = left.length;
  const level = new Int32Array(days);
  const cleanDays = toGrid(stage.cleanDays);
  if (cleanDays === 0) return level;
  let next = 0;
  for (let day = 0; day < days; day++) {
    while (next < visits.length && visits[next]! < day + cleanDays) next++;
    const holes = left[day]! - Math.min(left[day]!, named[day]!);
    level[day]! += holes;
    const back = visits[next] ?? days;
    if (back < days) level[back]! -= holes;
  }
  return summedUp(level);
}
