/** Holes that stand empty in the next weeks: free, and not being cleaned. */

import type { Opening } from '../../models/opening.js';
import { holesOf, type Plan } from '../../models/plan.js';
import type { Watcher } from './futures.js';
import { dayBy, type Range, rangeOf } from './range.js';

export interface EmptyHoles {
  /** Empty on average over each week. */
  readonly weeks: readonly Range[];
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

export class HolesWatch implements Watcher {
  readonly #plan: Plan;
  readonly #from: number;
  readonly #weeks: number;
  /** By stage: free holes since the last visit. */
  #free: number[] = [];
  #freeAtFirst: number[] = [];
  #since = 0;
  /** By stage and week: hole-days of the present future. */
  #holeDays: number[][] = [];
  #first: number[] = [];
  readonly #empty: number[][][];
  readonly #firsts: number[][];

  constructor(plan: Plan, from: number, weeks: number) {
    this.#plan = plan;
    this.#from = from;
    this.#weeks = weeks;
    this.#empty = plan.stages.map(() => Array.from({ length: weeks }, () => []));
    this.#firsts = plan.stages.map(() => []);
  }

  begin(opening: Opening | null): void {
    this.#free = this.#plan.stages.map(holesOf);
    for (const { stage } of opening?.plants ?? []) this.#free[stage]!--;
    for (const { stage, holes } of opening?.cleaning ?? []) this.#free[stage]! -= holes;
    this.#freeAtFirst = [...this.#free];
    this.#since = this.#from;
    this.#holeDays = this.#plan.stages.map(() => new Array<number>(this.#weeks).fill(0));
    this.#first = this.#plan.stages.map(() => Number.NaN);
  }

  note(): void {}

  visited(t: number, free: Int32Array): void {
    this.#passTo(t);
    for (let s = 0; s < this.#free.length; s++) {
      this.#free[s] = free[s]!;
      if (Number.isNaN(this.#first[s]) && free[s]! > this.#freeAtFirst[s]!) this.#first[s] = t;
    }
  }

  end(): void {
    const end = this.#from + 7 * this.#weeks;
    this.#passTo(end);
    this.#holeDays.forEach((weeks, s) => {
      weeks.forEach((days, week) => {
        this.#empty[s]![week]!.push(days / 7);
      });
      if (this.#first[s]! < end) this.#firsts[s]!.push(this.#first[s]!);
    });
  }

  /** For each stage, once all futures are over. */
  stages(): EmptyHoles[] {
    return this.#empty.map((weeks, s) => {
      return {
        weeks: weeks.map(rangeOf),
        first: firstDay(this.#firsts[s]!, weeks[0]!.length),
      };
    });
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

/** @param days of the futures in which it came @param futures in all */
function firstDay(days: readonly number[], futures: number): FirstDay | null {
  if (days.length === 0) return null;
  return {
    chance: days.length / futures,
    p10: dayBy(days, 0.1),
    p50: dayBy(days, 0.5),
    p90: dayBy(days, 0.9),
  };
}
