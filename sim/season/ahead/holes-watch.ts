/** Holes that stand empty in the next weeks: free, and not being cleaned. */

import type { InitialState } from '../../models/initial-state.js';
import { holesOf, type Plan } from '../../models/plan.js';
import { dayBy, type Forecast, forecastOf } from './forecast.js';
import type { Watcher } from './watcher.js';

export interface EmptyHoles {
  /** Empty on average over each week. */
  readonly weeks: readonly Forecast[];
  /** When more holes than now will stand empty for the first time; null if in no future they do. */
  readonly first: FirstDay | null;
}

/** When something comes for the first time. */
export interface FirstDay {
  /** Share of futures in which it comes. */
  readonly chance: number;
  /** Of those futures: days from the start [d]. */
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
}

/** Of one future. */
export interface HolesSeen {
  /** By stage and week: holes that stand empty on average. */
  readonly empty: readonly (readonly number[])[];
  /** By stage: the first visit after which more stand empty than now [d from the start]; NaN if there is none. */
  readonly first: readonly number[];
}

export class HolesWatch implements Watcher<HolesSeen> {
  readonly #plan: Plan;
  readonly #from: number;
  readonly #weeks: number;
  /** By stage: free holes since the last visit. */
  #free: number[] = [];
  #freeAtFirst: number[] = [];
  #since = 0;
  /** By stage and week: hole-days. */
  #holeDays: number[][] = [];
  #first: number[] = [];

  constructor(plan: Plan, from: number, weeks: number) {
    this.#plan = plan;
    this.#from = from;
    this.#weeks = weeks;
  }

  begin(initial: InitialState | null): void {
    this.#free = this.#plan.stages.map(holesOf);
    for (const { stage } of initial?.plants ?? []) this.#free[stage]!--;
    for (const { stage, holes } of initial?.cleaning ?? []) this.#free[stage]! -= holes;
    this.#freeAtFirst = [...this.#free];
    this.#since = this.#from;
    this.#holeDays = this.#plan.stages.map(() => new Array<number>(this.#weeks).fill(0));
    this.#first = this.#plan.stages.map(() => Number.NaN);
  }

  onEvent(): void {}

  onVisitEnd(t: number, free: Int32Array): void {
    this.#passTo(t);
    for (let s = 0; s < this.#free.length; s++) {
      this.#free[s] = free[s]!;
      if (Number.isNaN(this.#first[s]) && free[s]! > this.#freeAtFirst[s]!) this.#first[s] = t;
    }
  }

  end(): HolesSeen {
    const end = this.#from + 7 * this.#weeks;
    this.#passTo(end);
    return {
      empty: this.#holeDays.map((weeks) => weeks.map((days) => days / 7)),
      first: this.#first.map((day) => (day < end ? day : Number.NaN)),
    };
  }

  /** Book the free holes from the last visit to `t`, week by week. */
  #passTo(t: number): void {
    let from = this.#since;
    while (from < t) {
      const week = Math.floor((from - this.#from) / 7);
      if (week >= this.#weeks) break;
      const to = Math.min(t, this.#from + 7 * (week + 1));
      for (let s = 0; s < this.#free.length; s++) {
        this.#holeDays[s]![week]! += (to - from) * this.#free[s]!;
      }
      from = to;
    }
    this.#since = t;
  }
}

/** For each stage, of all futures. @param seen at least one */
export function emptyHoles(seen: readonly HolesSeen[]): EmptyHoles[] {
  return seen[0]!.empty.map((weeks, s) => ({
    weeks: weeks.map((_, week) => forecastOf(seen.map(({ empty }) => empty[s]![week]!))),
    first: firstDay(seen.map(({ first }) => first[s]!)),
  }));
}

/** @param firsts of all futures; NaN of those in which it does not come */
function firstDay(firsts: readonly number[]): FirstDay | null {
  const days = firsts.filter((day) => !Number.isNaN(day));
  if (days.length === 0) return null;
  return {
    chance: days.length / firsts.length,
    p10: dayBy(days, 0.1),
    p50: dayBy(days, 0.5),
    p90: dayBy(days, 0.9),
  };
}
