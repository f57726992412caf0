/** Where the hole-days of a season go in the course of it: those of each week in each state, mean of many seasons. */

import { STATE_COUNT } from '../../models/ledger.js';
import { Line } from '../../models/line/line.js';
import type { Plan } from '../../models/plan.js';
import { HoleStates } from './film-states.js';

const WEEK = 7;

/** What a thread is asked for: one season gone through. Its answer is what `courseOfSeason` gives. */
export interface CourseErrand {
  readonly kind: 'course';
  readonly plan: Plan;
  readonly seed: number;
  readonly season: number;
}

/**
 * Run a season and book its hole-days by weeks.
 * @param line of the plan; made anew if left out
 * @returns hole-days of week w in state k of stage s at (w x stages + s) x STATE_COUNT + k
 */
export function courseOfSeason(
  { plan, seed, season }: Omit<CourseErrand, 'kind'>,
  line = new Line(plan),
): Float64Array {
  const columns = plan.stages.length * STATE_COUNT;
  const days = new Float64Array(plan.weeks * columns);
  const counts = new Uint32Array(columns);
  const states = new HoleStates(plan, (from, to) => {
    counts.fill(0);
    states.putCounts(counts, 0);
    // Holes stay in their states from one moment to another, which may lie in another week.
    for (let at = from; at < to; ) {
      const week = Math.floor(at / WEEK);
      const end = Math.min(to, (week + 1) * WEEK);
      for (let i = 0; i < columns; i++) days[week * columns + i]! += counts[i]! * (end - at);
      at = end;
    }
  });
  line.run(seed, season, states);
  states.end();
  return days;
}

/** Many seasons of one plan. Over all weeks their hole-days come to what the ledger has. */
export class HoleDayCourse {
  /** Seasons that were taken in. */
  seasons = 0;
  readonly #stages: number;
  readonly #sums: Float64Array;

  constructor({ weeks, stages }: Plan) {
    this.#stages = stages.length;
    this.#sums = new Float64Array(weeks * this.#stages * STATE_COUNT);
  }

  /** Take a season in. */
  add(days: Float64Array): void {
    for (let i = 0; i < days.length; i++) this.#sums[i]! += days[i]!;
    this.seasons++;
  }

  /** Hole-days of a week in each state (as in `STATES`) of a stage, mean of the seasons. */
  weekOf(week: number, stage: number): number[] {
    const at = (week * this.#stages + stage) * STATE_COUNT;
    return Array.from(this.#sums.subarray(at, at + STATE_COUNT), (sum) => sum / this.seasons);
  }
}
