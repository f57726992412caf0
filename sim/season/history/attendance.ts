/** When somebody tended the line: a log shows what was done, not every visit at which there was nothing to do. */

import { toGrid } from '../../engine/clock.js';
import { summedUp } from '../../engine/lists.js';
import { holesOf } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { CohortsByStage } from './cohorts.js';
import type { LoggedSeason } from './logged-season.js';

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
  const sowings = new DueSowings(season, cohorts);
  let silent: number[] = [];
  let absent = false;
  const endOfSilence = (): void => {
    (absent ? missed : visits).push(...silent);
    silent = [];
    absent = false;
  };
  for (const day of daysToLookAt(season, logged)) {
    const due = sowings.dueWithRoom(day);
    if (logged.has(day)) {
      endOfSilence();
      visits.push(day);
      sowings.done();
    } else {
      silent.push(day);
      if (due) absent = true;
      else if (!absent) sowings.done();
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
  const planned = plan.visits.kind === 'days' ? plan.visits.days : [];
  const all = new Set([...planned.filter((day) => day < days), ...logged]);
  return [...all].sort((a, b) => a - b);
}

/** Whether a visit on some day would have sown something. */
class DueSowings {
  readonly #days: readonly number[];
  readonly #free: (day: number) => number;
  #next = 0;
  #due = false;

  constructor({ plan, days }: LoggedSeason, cohorts: CohortsByStage) {
    // In a line of one stage a log of several cuts does not tell which cells are free.
    const tells = plan.stages.length > 1 || plan.crops.every(({ cuts }) => cuts === 1);
    this.#days = tells
      ? plan.crops
          .flatMap(({ sowing }) => (sowing.kind === 'due' ? sowing.days : []))
          .filter((day) => day < days)
          .sort((a, b) => a - b)
      : [];
    const first = route.first(plan);
    const stage = plan.stages[first]!;
    this.#free = freeCells(holesOf(stage), stage.cleanDays, cohorts[first]!, days);
  }

  /** Days are to be asked for in their order. */
  dueWithRoom(day: number): boolean {
    while (this.#next < this.#days.length && this.#days[this.#next]! <= day) {
      this.#due = true;
      this.#next++;
    }
    return this.#due && this.#free(day) > 0;
  }

  done(): void {
    this.#due = false;
  }
}

/** Cells of the first stage that a visit on a day without a row would have found free. */
function freeCells(
  holes: number,
  cleanDays: number,
  cohorts: CohortsByStage[number],
  days: number,
): (day: number) => number {
  const free = new Int32Array(days + 1);
  free[0] = holes;
  for (const cohort of cohorts) {
    free[cohort.from]! -= cohort.count;
    for (const { to, count, vacates } of cohort.stays) {
      const back = Math.ceil(to + toGrid(cleanDays));
      if (vacates && back <= days) free[back]! += count;
    }
  }
  summedUp(free);
  return (day) => free[day]!;
}
