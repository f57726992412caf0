/**
 * The grid of a stretch (see stretch.ts) and the course of a batch on it.
 *
 * The edges of cells are at even places, their middles at odd ones.
 */

import { power } from '../../../engine/power.js';
import type { LifeTable } from './life-table.js';

/** A weight less than this beside the largest possible one counts as none. */
const VANISHING = 1e-200;
/** So many shares are multiplied one by one. */
const FEW = 10;

/**
 * Place on the grid of a front. State 0: where it was at the beginning of the stretch. State i: in cell i.
 */
export function placeOf(state: number): number {
  return state === 0 ? 0 : 2 * state - 1;
}

/**
 * One step of the chain, kept from one call to the next because making it anew would cost more than filling
 * it.
 */
export interface ChainStep {
  /** Fronts before that matter: `from` to `until`, exclusive. */
  from: number;
  until: number;
  /** Fronts after the visit that matter: `first` to `last`. */
  first: number;
  last: number;
  /** Likelihood of moving from each front before to each of `first` to `last`, row by row. */
  weights: Float64Array;
  /** Likelihood of each front after the visit, given what was seen until then. */
  readonly density: Float64Array;
}

/**
 * Of one batch, the chance of being ready by each point of the grid: the edges of cells are at even, their
 * middles at odd places. A batch leaves within a few visits, so only the points that are asked for are filled
 * in.
 */
export class IncidenceCurve {
  readonly #table: LifeTable;
  readonly #ages: readonly number[];
  readonly #by: Float64Array;
  readonly #after: Float64Array;
  /** At which trial a point was filled in. */
  readonly #filledAt: Int32Array;
  readonly #step: number;
  #trial = 0;
  #tilts: readonly number[] = [];

  /**
   * @param ages of the cohorts at the beginning of the stretch, negative if they came later [units]
   * @param points of the grid
   * @param step from one point to the next [units]
   */
  constructor(table: LifeTable, ages: readonly number[], points: number, step: number) {
    this.#table = table;
    this.#ages = ages;
    this.#step = step;
    this.#by = new Float64Array(points);
    this.#after = new Float64Array(points);
    this.#filledAt = new Int32Array(points);
  }

  /** Forget what was filled in. @param tilts weights of the cohorts (see cohort-mixture.ts) */
  begin(tilts: readonly number[]): void {
    this.#tilts = tilts;
    this.#trial++;
  }

  /** Chance of becoming ready between two places. */
  chance(start: number, stop: number): number {
    this.#know(start);
    this.#know(stop);
    return between(this.#by[start]!, this.#after[start]!, this.#by[stop]!, this.#after[stop]!);
  }

  /**
   * Multiply the weights of a step by the chances of `count` plants, each over `most`.
   * What vanishes is made 0 before it becomes a number with few digits, which are slow besides.
   */
  multiply({ from, until, first, last, weights }: ChainStep, count: number, most: number): void {
    const by = this.#by;
    const after = this.#after;
    const width = last - first + 1;
    for (let j = Math.max(from, first); j <= last; j++) this.#know(2 * j);
    for (let i = from; i < until; i++) {
      const start = placeOf(i);
      this.#know(start);
      const startBy = by[start]!;
      const startAfter = after[start]!;
      const row = (i - from) * width - first;
      for (let j = Math.max(i, first); j <= last; j++) {
        let product = weights[row + j]!;
        if (product === 0) continue;
        const share = between(startBy, startAfter, by[2 * j]!, after[2 * j]!) / most;
        // Of few, a plant at a time: a power costs more than ten multiplications.
        if (count > FEW) product *= power(share, count);
        else for (let k = 0; k < count; k++) product *= share;
        weights[row + j] = product < VANISHING ? 0 : product;
      }
    }
  }

  #know(place: number): void {
    if (this.#filledAt[place] !== this.#trial) this.#fill(place);
  }

  #fill(place: number): void {
    let by = 0;
    let after = 0;
    for (let j = 0; j < this.#ages.length; j++) {
      const age = this.#ages[j]! + this.#step * place;
      by += this.#tilts[j]! * this.#table.readyBy(age);
      after += this.#tilts[j]! * this.#table.readyAfter(age);
    }
    this.#by[place] = by;
    this.#after[place] = after;
    this.#filledAt[place] = this.#trial;
  }
}

/** The difference of the two smaller numbers is the one that keeps its digits. */
function between(startBy: number, startAfter: number, stopBy: number, stopAfter: number): number {
  return Math.max(0, stopBy < startAfter ? stopBy - startBy : startAfter - stopAfter);
}
