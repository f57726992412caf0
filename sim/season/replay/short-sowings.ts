/** Which sowings were too small for a stage to be full. */

import { isoOfDay } from '../../models/dates.js';
import type { LoggedSeason } from '../history/logged-season.js';
import type { IdleEvidence } from './causes.js';
import type { MeanFlow } from './mean-flow.js';

/** Sowings of fewer seeds than keep a stage full until the next sowing. */
export interface ShortSowings {
  /** ISO dates of the first and the last of them. */
  readonly from: string;
  readonly to: string;
  readonly count: number;
  /** Seeds sown in them, and seeds that would have been needed for the stage to be full. */
  readonly sown: number;
  readonly needed: number;
  /** ISO dates among them on which less was sown than planned although there were free cells. */
  readonly below_plan: readonly string[];
  /** On how many of these nobody came. */
  readonly nobody_came: number;
}

export class SowingDates {
  readonly #season: LoggedSeason;
  readonly #tracing: MeanFlow;
  /** Days with a sowing in the log or in the plan, ascending. */
  readonly #days: readonly number[];
  readonly #missed: ReadonlySet<number>;
  readonly #sown = new Map<number, number>();
  readonly #belowPlan = new Set<number>();

  /** @param planned seeds of each crop on each day @param notSown likewise (see planned-sowings.ts) */
  constructor(
    { season, meanFlow, attendance }: IdleEvidence,
    planned: readonly Float64Array[],
    notSown: readonly Float64Array[],
  ) {
    this.#season = season;
    this.#missed = new Set(attendance.missed);
    this.#tracing = meanFlow;
    for (const { sown, seeds } of season.batches) this.#sown.set(sown, (this.#sown.get(sown) ?? 0) + seeds);
    const days = new Set(this.#sown.keys());
    for (let day = 0; day < season.days; day++) {
      if (planned.some((crop) => crop[day]! > 0)) days.add(day);
      if (notSown.some((crop) => crop[day]! > 0)) this.#belowPlan.add(day);
    }
    this.#days = [...days].sort((a, b) => a - b);
  }

  /**
   * Of the sowings that should have filled a stage from one day to another, those that were too small.
   * @returns null if none was
   */
  short(s: number, from: number, to: number): ShortSowings | null {
    const window = this.#tracing.sowingsFor(s, from, to);
    const perDay = this.#tracing.seedsNeeded(s);
    const short: number[] = [];
    let sown = 0;
    let needed = 0;
    for (let i = 0; i < this.#days.length; i++) {
      const day = this.#days[i]!;
      if (day < window.from || day > window.to) continue;
      const need = perDay * ((this.#days[i + 1] ?? this.#season.days) - day);
      const seeds = this.#sown.get(day) ?? 0;
      if (seeds >= need) continue;
      short.push(day);
      sown += seeds;
      needed += need;
    }
    if (short.length === 0) return null;
    const date = (day: number): string => isoOfDay(this.#season.plan.start, day);
    const below = short.filter((day) => this.#belowPlan.has(day));
    return {
      from: date(short[0]!),
      to: date(short.at(-1)!),
      count: short.length,
      sown,
      needed,
      below_plan: below.map(date),
      nobody_came: below.filter((day) => this.#missed.has(day)).length,
    };
  }
}
