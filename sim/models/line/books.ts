/** What is booked of a season: its counts, and the areas under the levels of every stage. */

import type { EventQueue } from '../../engine/event-queue.js';
import { Levels } from '../../engine/tally.js';
import { COUNTS, type Season, STATE_COUNT } from '../ledger.js';
import { type Plan, seasonDays } from '../plan.js';
import type { Stage } from './stage.js';

export class Books {
  /** The same object in every season. */
  readonly season: Season;
  readonly counts = new Float64Array(COUNTS.length);
  readonly #levels: Levels;

  constructor(plan: Plan) {
    this.#levels = new Levels(plan.stages.length * STATE_COUNT, seasonDays(plan));
    this.season = {
      counts: this.counts,
      ledger: this.#levels.areas,
      weekPicks: new Float64Array(plan.weeks),
      weekDiscards: new Float64Array(plan.stages.length * plan.weeks),
      firstPick: Number.NaN,
      takes: null,
    };
  }

  /** Nothing counted and nothing booked. */
  reset(): void {
    this.#levels.reset();
    this.counts.fill(0);
    this.season.weekPicks.fill(0);
    this.season.weekDiscards.fill(0);
    this.season.firstPick = Number.NaN;
    this.season.takes = null;
  }

  /** Book the levels of every stage that was touched, as they stand from now on. */
  book(stages: readonly Stage[], queue: EventQueue): void {
    const t = queue.now;
    for (let s = 0; s < stages.length; s++) {
      const stage = stages[s]!;
      if (!stage.touched) continue;
      stage.touched = false;
      stage.tellLevels(this.#levels, t);
    }
  }

  /** Book that one hole of a stage goes from one state into another, where nothing else changes. */
  shift(stage: Stage, from: number, to: number, { now }: EventQueue): void {
    this.#levels.add(stage.place * STATE_COUNT + from, -1, now);
    this.#levels.add(stage.place * STATE_COUNT + to, 1, now);
  }
}
