/** What many seasons of one plan took beyond its holes; sums without rounding, as in tallies.ts. */

import { ExactMoments } from '../engine/exact-moments.js';
import { lineMatter } from '../models/physical/line-matter.js';
import type { Plan } from '../models/plan.js';
import { type SeasonTakes, TANK_COLUMNS, TakesColumns } from '../models/takes.js';

/** As plain numbers. */
export interface TakesData {
  readonly row: readonly number[];
  readonly tank: readonly number[];
}

export class TakesTallies {
  readonly columns: TakesColumns;
  /** One column for each of `columns`. */
  readonly #row: ExactMoments;
  /** One for each of TANK_COLUMNS, of the seasons in which the tank was looked at. */
  readonly #tank: ExactMoments;

  private constructor(columns: TakesColumns, data?: TakesData) {
    this.columns = columns;
    const moments = (width: number, known?: readonly number[]): ExactMoments =>
      known === undefined ? new ExactMoments(width) : ExactMoments.from(width, known);
    this.#row = moments(columns.width, data?.row);
    this.#tank = moments(TANK_COLUMNS.count, data?.tank);
  }

  /** @returns null where the plan tells of nothing but holes */
  static of(plan: Plan, data?: TakesData): TakesTallies | null {
    const matter = lineMatter(plan);
    return matter && new TakesTallies(new TakesColumns(plan, matter), data);
  }

  add({ row, tank }: SeasonTakes): void {
    this.#row.add(row);
    if (tank !== null) this.#tank.add(tank);
  }

  merge(other: TakesTallies): void {
    this.#row.merge(other.#row);
    this.#tank.merge(other.#tank);
  }

  toData(): TakesData {
    return { row: this.#row.toData(), tank: this.#tank.toData() };
  }

  /** Mean of a column of `columns`, in the unit of its description. */
  mean(column: number): number {
    return this.#row.mean(column) * this.columns.units[column]!;
  }

  /** The same of one of TANK_COLUMNS; NaN if no season was looked at. */
  tankMean(column: number): number {
    return this.#tank.mean(column) * this.columns.tankUnits[column]!;
  }

  /** Seasons in which the tank was looked at from visit to visit. */
  get tankSeasons(): number {
    return this.#tank.count;
  }
}
