/** Which sowings were too small for a stage to be full. */

import { isoOfDay } from '../../models/dates.js';
import type { LoggedSeason } from '../history/logged-season.js';
import type { IdleEvidence, ShortSowings } from './causes.js';
import type { MeanFlow } from './mean-flow.js';

export class SowingDates {
  readonly #season: LoggedSeason;
  readonly #tracing: MeanFlow;
  /** Days with a sowing in the log or in the plan, ascending. */
  readonly #days: number[] = [];
  readonly #visits: readonly number[];
  readonly #missed: ReadonlySet<number>;
  readonly #sown: Float64Array;
  readonly #belowPlan = new Set<number>();

  /**
   * @param sown seeds sown on each day
   * @param planned seeds of each crop on each day @param notSown likewise (see planned-sowings.ts)
   */
  constructor(
    { season, meanFlow, attendance }: IdleEvidence,
    sown: Float64Array,
    planned: readonly Float64Array[],
    notSown: readonly Float64Array[],
  ) {
    this.#season = season;
    this.#visits = attendance.visits;
    this.#missed = new Set(attendance.missed);
    this.#tracing = meanFlow;
    this.#sown = sown;
    for (let day = 0; day < season.days; day++) {
      if (sown[day]! > 0 || planned.some((crop) => crop[day]! > 0)) this.#days.push(day);
      if (notSown.some((crop) => crop[day]! > 0)) this.#belowPlan.add(day);
    }
  }

  /**
   * Which sowings below the plan, of those that should have filled a stage on a day, left holes empty: the key of all that were
   * missed in one absence, or of all at which somebody was there; null of some of both.
   */
  belowOn(s: number, day: number): string | null {
    const window = this.#tracing.sowingsFor(s, day, day);
    const keys = new Set<string>();
    for (const on of this.#belowPlan) if (on >= window.from && on <= window.to) keys.add(this.#keyOf(on));
    return keys.size === 1 ? [...keys][0]! : null;
  }

  /** Of the sowings that should have filled a stage from one day to another, those below the plan. @param key of `belowOn` */
  below(s: number, from: number, to: number, key: string | null): ShortSowings | null {
    return this.#short(s, from, to, (day) => this.#belowPlan.has(day) && key === (key && this.#keyOf(day)));
  }

  /**
   * Of the sowings that should have filled a stage from one day to another, those that were too small though no smaller than
   * planned; if there is none, those below the plan.
   * @returns null if none was too small
   */
  short(s: number, from: number, to: number): ShortSowings | null {
    return this.#short(s, from, to, (day) => !this.#belowPlan.has(day)) ?? this.below(s, from, to, null);
  }

  /** Of a day on which nobody came, the one before it on which somebody did. */
  #keyOf(day: number): string {
    return this.#missed.has(day) ? `${this.#visits.findLast((visit) => visit < day) ?? -1}` : 'there';
  }

  #short(s: number, from: number, to: number, counts: (day: number) => boolean): ShortSowings | null {
    const window = this.#tracing.sowingsFor(s, from, to);
    const perDay = this.#tracing.seedsNeeded(s);
    const short: number[] = [];
    let sown = 0;
    let needed = 0;
    for (let i = 0; i < this.#days.length; i++) {
      const day = this.#days[i]!;
      if (day < window.from || day > window.to || !counts(day)) continue;
      const need = perDay * ((this.#days[i + 1] ?? this.#season.days) - day);
      const seeds = this.#sown[day]!;
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
