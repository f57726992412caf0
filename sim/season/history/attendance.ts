/** When somebody tended the line: a log shows what was done, not every visit at which there was nothing to do. */

import { toGrid } from '../../engine/clock.js';
import { summedUp } from '../../engine/lists.js';
import { holesOf } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { CohortsByStage } from './cohorts.js';
import type { LoggedSeason } from './logged-season.js';
import { dailyVisits } from './plan-days.js';

export interface Attendance {
  /** Days on which there was a visit, ascending [d]. */
  readonly visits: readonly number[];
  /** Days on which the plan has a visit and nobody can have come, ascending [d]. */
  readonly missed: readonly number[];
}

/**
 * The visits of a season: the planned ones, and every date with a row.
 *
 * A planned visit without a row may have been one at which nothing was to be done. But if a sowing was due and cells were free,
 * it would have been made: then nobody came, neither then nor on the other planned visits between the same two
 * rows. (Crops sown by `refill` prove nothing.)
 */
export function attendance(season: LoggedSeason, cohorts: CohortsByStage): Attendance {
  const logged = new Set(season.events.map(({ day }) => day));
  const visits: number[] = [];
  const missed: number[] = [];
  const sowings = dueDays(season);
  const free = freeCells(season, cohorts);
  let next = 0;
  let due = false;
  let silent: number[] = [];
  let absent = false;
  const endOfSilence = (): void => {
    for (const day of silent) (absent ? missed : visits).push(day);
    silent = [];
    absent = false;
  };
  for (const day of daysToLookAt(season, logged)) {
    for (; next < sowings.length && sowings[next]! <= day; next++) due = true;
    if (logged.has(day)) {
      endOfSilence();
      visits.push(day);
      due = false;
    } else {
      silent.push(day);
      if (due && free[day]! > 0) absent = true;
      else if (!absent) due = false;
    }
  }
  endOfSilence();
  return { visits, missed };
}

/** Gaps between visits, the usual one [d]: 9 in 10 are no longer. 0 with fewer than two visits. */
export function usualGap(visits: readonly number[]): number {
  const gaps = visits.slice(1).map((day, i) => day - visits[i]!);
  if (gaps.length === 0) return 0;
  gaps.sort((a, b) => a - b);
  return gaps[Math.floor(0.9 * (gaps.length - 1))]!;
}

function daysToLookAt({ plan, days }: LoggedSeason, logged: ReadonlySet<number>): number[] {
  const all = new Set([...dailyVisits(plan).filter((day) => day < days), ...logged]);
  return [...all].sort((a, b) => a - b);
}

/** When sowings fall due that tell whether somebody came, ascending [d]. */
function dueDays({ plan, days }: LoggedSeason): number[] {
  // In a line of one stage a log of several cuts does not tell which cells are free.
  if (plan.stages.length === 1 && plan.crops.some(({ cuts }) => cuts > 1)) return [];
  return plan.crops
    .flatMap(({ sowing }) => (sowing.kind === 'due' ? sowing.days : []))
    .filter((day) => day < days)
    .sort((a, b) => a - b);
}

/** Cells of the first stage that a visit on a day without a row would have found free, one entry a day. */
function freeCells({ plan, days }: LoggedSeason, cohorts: CohortsByStage): Int32Array {
  const first = route.first(plan);
  const stage = plan.stages[first]!;
  const free = new Int32Array(days + 1);
  free[0] = holesOf(stage);
  for (const cohort of cohorts[first]!) {
    free[cohort.seen]! -= cohort.count;
    for (const { to, count, vacates } of cohort.stays) {
      const back = Math.ceil(to + toGrid(stage.cleanDays));
      if (vacates && back <= days) free[back]! += count;
    }
  }
  return summedUp(free);
}
