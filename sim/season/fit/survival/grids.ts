/**
 * The likelihood of a stretch of short visits, from two grids.
 *
 * The error of a grid falls with the square of its cells. So a grid with cells twice as wide has four times
 * the error, and a third of the difference takes it away but for the next order (Richardson's extrapolation;
 * textbook method, from memory).
 */

import { IncidenceCurve, placeOf } from './incidence-curve.js';
import type { GroupFates, StretchRecord } from './intervals.js';
import type { LifeTable } from './life-table.js';
import { Stretch, type Window } from './stretch.js';

/**
 * Units in a cell of the finer grid: its middle must lie on the lattice. The coarser grid's cells are twice
 * as wide.
 */
export const CELL = 2;

interface Grid {
  readonly stretch: Stretch;
  readonly courses: readonly IncidenceCurve[];
  /** From one point of the grid to the next [units] */
  readonly step: number;
}

export class Grids {
  readonly #fine: Grid;
  readonly #coarse: Grid;
  readonly #start: number;
  readonly #visits: StretchRecord['visits'];
  /** Those that take part. */
  readonly #members: readonly GroupFates[];

  /** @param tables by kind @param members all groups of the stage */
  constructor(stretch: StretchRecord, members: readonly GroupFates[], tables: readonly LifeTable[]) {
    this.#start = stretch.start;
    this.#visits = stretch.visits;
    this.#members = stretch.members.map((m) => members[m]!);
    this.#fine = gridOf(stretch, members, tables, 1);
    this.#coarse = gridOf(stretch, members, tables, 2);
  }

  /**
   * ln of the likelihood.
   * @param tilts of each group that takes part
   * @param end ln of the likelihood of what came after, by the last front [units]
   */
  value(tilts: readonly (readonly number[])[], end: (cutoff: number) => number): number {
    const coarse = this.#forward(this.#coarse, tilts, end);
    const fine = this.#forward(this.#fine, tilts, end, this.#windows());
    return fine + (fine - coarse) / 3;
  }

  /** Fronts on the finer grid that matter, as the coarser one has them and a cell more on either side. */
  #windows(): Window[] {
    return this.#coarse.stretch.windows().map(({ first, last }, k) => ({
      first: Math.max(1, 2 * (first - 1) - 1),
      last: Math.min(this.#lastCell(k), 2 * (last + 1)),
    }));
  }

  #lastCell(visit: number): number {
    return (this.#visits[visit]!.day - this.#start) / CELL;
  }

  /** Prepare a path of the coarser grid, which is near enough to make tilts from; without the likelihood. */
  prepare(tilts: readonly (readonly number[])[], end: (cutoff: number) => number): void {
    this.#forward(this.#coarse, tilts, end);
  }

  /**
   * Fronts after each visit that may well have been [units] (see Stretch.path): after `prepare`, or after `value`.
   * @param rough on the coarser grid
   */
  path(shares: readonly number[], rough: boolean): number[] {
    const { stretch, step } = rough ? this.#coarse : this.#fine;
    return stretch.path(shares).map((place) => this.#start + step * place);
  }

  #forward(
    { stretch, courses: curves, step }: Grid,
    tilts: readonly (readonly number[])[],
    end: (cutoff: number) => number,
    windows: readonly Window[] | null = null,
  ): number {
    for (const [k, curve] of curves.entries()) curve.begin(sharedOut(tilts[k]!, this.#members[k]!));
    return stretch.forward(curves, (state) => end(this.#start + step * placeOf(state)), windows);
  }
}

/** The weight of each cohort, shared out among the days on which it can have come in. */
function sharedOut(tilts: readonly number[], { entries }: GroupFates): readonly number[] {
  if (entries.every(({ days }) => days.length === 1)) return tilts;
  return entries.flatMap(({ days }, j) => days.map(() => tilts[j]! / days.length));
}

function gridOf(
  { start, visits, members: taking }: StretchRecord,
  members: readonly GroupFates[],
  tables: readonly LifeTable[],
  step: number,
): Grid {
  const cell = CELL * step;
  const stretch = new Stretch(visits.map(({ day, leaving }) => ({ cells: (day - start) / cell, leaving })));
  const points = (2 * (visits.at(-1)!.day - start)) / cell + 1;
  const curves = taking.map((m) => {
    const { kind, entries } = members[m]!;
    const ages = entries.flatMap(({ days }) => days.map((entry) => start - entry));
    return new IncidenceCurve(tables[kind]!, ages, points, step);
  });
  return { stretch, courses: curves, step };
}
