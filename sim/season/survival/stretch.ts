/**
 * A stretch of visits at which holes were short: what the plants that left then tell about when they became
 * ready.
 *
 * Ready plants go on longest ready first, whatever their batch. So after a visit at which holes were short
 * there is a moment, the front, such that all that were ready before it have gone and all others have not. It
 * is not known; where holes were left over it is the visit itself. Given the fronts every plant is by itself
 * again: one that left at a visit became ready between the front before and the front then. The front at a
 * visit is the moment at which the last one that found a hole became ready, so the fronts form a chain, and
 * their unknown values are summed out step by step, on a grid of cells (the forward and backward recursions
 * of hidden Markov chains; textbook method, from memory).
 *
 * The likelihood of the plants that left at one visit is a product over batches of powers of differences,
 * (R(front) - R(front before))^n with R(t) the chance of being ready by t. As a function of the front it
 * grows from 0, and what it grows by in a cell is the likelihood of the front being there. A front within a
 * cell is put at its middle: the error of the logarithm falls with the square of the cell, so it is
 * extrapolated from two grids (see grids.ts).
 */

import { type Course, placeOf, type Step } from './course.js';

/** Plants that left at one visit: which batch, how many. */
export interface Leaving {
  readonly batch: number;
  readonly count: number;
}

export interface ShortVisit {
  /** Cells from the beginning of the stretch to the visit. */
  readonly cells: number;
  /** At least one. */
  readonly leaving: readonly Leaving[];
}

/** Fronts less likely than this, beside the likeliest, are left out. */
const NEGLIGIBLE = 1e-10;
/**
 * Fronts that follow each other on a path are at least so far apart [points of the grid]: somebody left in
 * between.
 */
const APART = 1e-3;
/** A chance less than this counts as this: a search that begins at an impossible place must find its way. */
const LEAST_CHANCE = 1e-300;

export class Stretch {
  readonly #visits: readonly ShortVisit[];
  readonly #steps: Step[];
  readonly #start: Float64Array;
  readonly #later: Float64Array;
  readonly #likely: Float64Array;
  #end: (state: number) => number = () => 0;

  /** @param visits in their order, at least one */
  constructor(visits: readonly ShortVisit[]) {
    const states = visits.at(-1)!.cells + 1;
    this.#visits = visits;
    this.#start = new Float64Array(states);
    this.#start[0] = 1;
    this.#later = new Float64Array(states);
    this.#likely = new Float64Array(states);
    this.#steps = visits.map(() => ({
      from: 0,
      until: 1,
      weights: new Float64Array(0),
      front: new Float64Array(states),
    }));
  }

  /**
   * @param courses of the batches
   * @param end ln of the likelihood of what came after the stretch, by the state of the last front
   * @returns ln of the likelihood of the stretch
   */
  forward(courses: readonly Course[], end: (state: number) => number): number {
    this.#end = end;
    let value = 0;
    let front = this.#start;
    let last = 1;
    for (const [k, step] of this.#steps.entries()) {
      const visit = this.#visits[k]!;
      value += fill(step, visit, front, last, courses);
      const { from, until, weights } = step;
      const width = visit.cells - from + 1;
      const next = step.front;
      next.fill(0);
      for (let i = from; i < until; i++) {
        const weight = front[i]!;
        if (weight === 0) continue;
        const row = (i - from) * width - from;
        for (let j = Math.max(1, i); j <= visit.cells; j++) next[j]! += weight * weights[row + j]!;
      }
      last = visit.cells + 1;
      value += normalise(next, last);
      front = next;
    }
    return value + this.#fillLater(front);
  }

  /**
   * After `forward`: fronts that may well have been, given all that was seen. From the last visit back, each
   * is where a share of its probability lies below, given the one after it; between cells along straight
   * lines, so that the fronts move smoothly with the chances.
   * @param shares one for each visit, between 0 and 1
   * @returns places on the grid
   */
  path(shares: readonly number[]): number[] {
    const places = new Array<number>(this.#steps.length);
    for (let k = this.#steps.length - 1; k >= 0; k--) {
      const { front } = this.#steps[k]!;
      const { cells } = this.#visits[k]!;
      const likely = this.#likely;
      likely.fill(0, 0, cells + 1);
      if (k + 1 === this.#steps.length) {
        for (let i = 1; i <= cells; i++) likely[i] = front[i]! * this.#later[i]!;
      } else this.#weighFronts(k, places[k + 1]!);
      places[k] = Math.min(placeAt(likely, cells, shares[k]!), (places[k + 1] ?? Infinity) - APART);
    }
    return places;
  }

  /** How likely each front after visit `k` is, if the next one is at `next`. */
  #weighFronts(k: number, next: number): void {
    const { front } = this.#steps[k]!;
    const { from, until, weights } = this.#steps[k + 1]!;
    const { cells } = this.#visits[k + 1]!;
    const width = cells - from + 1;
    // The middle of cell j is at 2 j - 1.
    const cell = Math.min(cells, Math.max(1, (next + 1) / 2));
    const low = Math.floor(cell);
    const share = cell - low;
    for (let i = Math.max(1, from); i < until; i++) {
      const row = (i - from) * width - from;
      const here = i <= low ? weights[row + low]! : 0;
      const above = share > 0 && i <= low + 1 ? weights[row + low + 1]! : 0;
      this.#likely[i] = front[i]! * ((1 - share) * here + share * above);
    }
  }

  /**
   * The likelihood of what came after, by front, over its largest.
   * @returns ln of its mean over the fronts
   */
  #fillLater(front: Float64Array): number {
    const later = this.#later;
    let best = -Infinity;
    for (let i = 0; i < later.length; i++) {
      if (front[i]! === 0) continue;
      later[i] = this.#end(i);
      best = Math.max(best, later[i]!);
    }
    let sum = 0;
    for (let i = 0; i < later.length; i++) {
      later[i] = front[i]! === 0 ? 0 : Math.exp(later[i]! - best);
      sum += front[i]! * later[i]!;
    }
    return best + Math.log(sum);
  }
}

/**
 * Fill the weights of one visit, divided by e^scale so that they do not vanish.
 * @param last fronts before, from 0 on
 * @returns scale
 */
function fill(
  step: Step,
  { cells, leaving }: ShortVisit,
  front: Float64Array,
  last: number,
  courses: readonly Course[],
): number {
  let largest = 0;
  for (let i = 0; i < last; i++) largest = Math.max(largest, front[i]!);
  let from = 0;
  while (front[from]! <= NEGLIGIBLE * largest) from++;
  let until = last;
  while (front[until - 1]! <= NEGLIGIBLE * largest) until--;
  const width = cells - from + 1;
  step.from = from;
  step.until = until;
  if (step.weights.length < (until - from) * width) step.weights = new Float64Array((until - from) * width);
  for (let i = from; i < until; i++) {
    const row = (i - from) * width - from;
    step.weights.fill(front[i]! === 0 ? 0 : 1, row + Math.max(1, i), row + cells + 1);
  }
  let scale = 0;
  for (const { batch, count } of leaving) {
    // No interval is longer than that from the first front to the visit; beside its chance the others are
    // shares.
    const most = courses[batch]!.chance(placeOf(from), 2 * cells);
    scale += count * Math.log(Math.max(LEAST_CHANCE, most));
    if (most > LEAST_CHANCE) courses[batch]!.multiply(step, cells, count, most);
  }
  for (let i = from; i < until; i++) {
    const row = (i - from) * width - from;
    let grown = 0;
    for (let j = Math.max(1, i); j <= cells; j++) {
      const now = step.weights[row + j]!;
      step.weights[row + j] = now - grown;
      grown = now;
    }
  }
  return scale;
}

/** Divide the first `n` by their sum. @returns its logarithm */
function normalise(weights: Float64Array, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += weights[i]!;
  if (sum > 0) for (let i = 0; i < n; i++) weights[i]! /= sum;
  return Math.log(Math.max(sum, LEAST_CHANCE));
}

/** Place on the grid below which a share of the probability of cells 1 to `cells` lies. */
function placeAt(likely: Float64Array, cells: number, share: number): number {
  let left = 0;
  for (let i = 1; i <= cells; i++) left += likely[i]!;
  left *= share;
  for (let i = 1; i <= cells; i++) {
    const part = likely[i]!;
    if (part > 0 && part >= left) return 2 * (i - 1 + left / part);
    left -= part;
  }
  return 2 * cells;
}
