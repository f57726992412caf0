/** Where the hole-days of a season go in the course of it: each week's in each state, mean of many seasons. */

import { STATE_COUNT } from '../../models/ledger.js';
import { Line } from '../../models/line/line.js';
import type { Plan } from '../../models/plan.js';
import { HoleStates } from './film-states.js';

const WEEK = 7;

/** Adds up the hole-days of seasons, week by week. Over all weeks they come to what the ledger has. */
export class HoleDayCourse {
  readonly #plan: Plan;
  readonly #line: Line;
  readonly #stages: number;
  readonly #sums: Float64Array;
  #seasons = 0;

  constructor(plan: Plan) {
    this.#plan = plan;
    this.#line = new Line(plan);
    this.#stages = plan.stages.length;
    this.#sums = new Float64Array(plan.weeks * this.#stages * STATE_COUNT);
  }

  /** Run a season and take it in. */
  add(seed: number, season: number): void {
    const counts = new Uint32Array(this.#stages * STATE_COUNT);
    const states = new HoleStates(this.#plan, (from, to) => {
      if (to <= from) return;
      counts.fill(0);
      states.putCounts(counts, 0);
      this.#book(counts, from, to);
    });
    this.#line.run(seed, season, states);
    states.end();
    this.#seasons++;
  }

  /** Hole-days of a week in each state (as in `STATES`) of a stage, mean of the seasons. */
  weekOf(week: number, stage: number): number[] {
    const at = (week * this.#stages + stage) * STATE_COUNT;
    return Array.from(this.#sums.subarray(at, at + STATE_COUNT), (sum) => sum / this.#seasons);
  }

  /** Holes stay in their states from one moment to another, which may lie in another week. */
  #book(counts: Uint32Array, from: number, to: number): void {
    for (let at = from; at < to; ) {
      const week = Math.floor(at / WEEK);
      const end = Math.min(to, (week + 1) * WEEK);
      const place = week * counts.length;
      for (let i = 0; i < counts.length; i++) this.#sums[place + i]! += counts[i]! * (end - at);
      at = end;
    }
  }
}
