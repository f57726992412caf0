/**
 * When what is dead or failed is cleared.
 *
 * Somebody who clears at every visit finds what died since the visit before. Others clear now and then, when a tray is
 * empty, or never write it down: then a clearing bounds the moment from above only, and what is said to stand may have
 * failed long ago. So at each visit whatever is dead is cleared (and logged) with the same chance c. Of the plants of a
 * cohort let U be the share that is dead and not cleared, and d the share that dies up to the next visit. At that visit
 * c (U + d) are cleared, and (1 - c) (U + d) are not.
 */

import type { LifeTable } from './life-table.js';

/** Shares of a cohort, one entry a visit. */
interface Course {
  readonly died: Float64Array;
  readonly failed: Float64Array;
}

export class Clearings {
  readonly #table: LifeTable;
  readonly #days: readonly number[];
  readonly #visitOf: ReadonlyMap<number, number>;
  /** By day of entry: dead, and not cleared before the visit. */
  readonly #courses = new Map<number, Course>();
  #chance = 1;

  /** @param days of the visits, ascending [units] */
  constructor(table: LifeTable, days: readonly number[]) {
    this.#table = table;
    this.#days = days;
    this.#visitOf = new Map(days.map((day, v) => [day, v]));
  }

  /** After the table was set. @param chance of being cleared at a visit */
  set(chance: number): void {
    this.#chance = chance;
    this.#courses.clear();
  }

  /** Probability that a plant that came in on day `entry` died and was cleared at the visit of day `to`. */
  died(entry: number, to: number): number {
    return this.#chance * this.#before(entry, to, 'died');
  }

  /** The same of a seed that failed. */
  failed(entry: number, to: number): number {
    return this.#chance * this.#before(entry, to, 'failed');
  }

  /** Probability of being dead or failed, and not cleared up to the visit of day `to`. */
  left(entry: number, to: number): number {
    if (this.#chance === 1) return 0;
    return (1 - this.#chance) * (this.#before(entry, to, 'died') + this.#before(entry, to, 'failed'));
  }

  #before(entry: number, to: number, end: keyof Course): number {
    const v = this.#visitOf.get(to)!;
    if (this.#chance < 1) return this.#courseOf(entry)[end][v]!;
    const from = (this.#days[v - 1] ?? to) - entry;
    return end === 'died'
      ? this.#table.diedBetween(from, to - entry)
      : this.#table.failedBetween(from, to - entry);
  }

  #courseOf(entry: number): Course {
    const known = this.#courses.get(entry);
    if (known !== undefined) return known;
    const days = this.#days;
    const course = { died: new Float64Array(days.length), failed: new Float64Array(days.length) };
    const kept = 1 - this.#chance;
    for (let v = 1; v < days.length; v++) {
      const [from, to] = [days[v - 1]! - entry, days[v]! - entry];
      if (to <= 0) continue;
      course.died[v] = kept * course.died[v - 1]! + this.#table.diedBetween(from, to);
      course.failed[v] = kept * course.failed[v - 1]! + this.#table.failedBetween(from, to);
    }
    this.#courses.set(entry, course);
    return course;
  }
}
