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

import { type ChainStep, type IncidenceCurve, placeOf } from './incidence-curve.js';

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

/** Fronts after a visit that matter: states `first` to `last`. */
export interface Window {
  readonly first: number;
  readonly last: number;
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
  readonly #steps: ChainStep[];
  readonly #start: Float64Array;
  readonly #later: Float64Array;
  readonly #likely: Float64Array;
  /** The likelihood of what came after a visit, and of what came after the one before (see `windows`). */
  #after: Float64Array;
  #before: Float64Array;
  #end: (state: number) => number = () => 0;

  /** @param visits in their order, at least one */
  constructor(visits: readonly ShortVisit[]) {
    const states = visits.at(-1)!.cells + 1;
    this.#visits = visits;
    this.#start = new Float64Array(states);
    this.#start[0] = 1;
    this.#later = new Float64Array(states);
    this.#likely = new Float64Array(states);
    this.#after = new Float64Array(states);
    this.#before = new Float64Array(states);
    this.#steps = visits.map(() => ({
      from: 0,
      until: 1,
      first: 1,
      last: 1,
      weights: new Float64Array(0),
      density: new Float64Array(states),
    }));
  }

  /**
   * @param curves of the batches
   * @param end ln of the likelihood of what came after the stretch, by the state of the last front
   * @param windows for each visit, if it is known already which fronts matter
   * @returns ln of the likelihood of the stretch
   */
  forward(
    curves: readonly IncidenceCurve[],
    end: (state: number) => number,
    windows: readonly Window[] | null = null,
  ): number {
    this.#end = end;
    let value = 0;
    let density = this.#start;
    let before: Window = { first: 0, last: 0 };
    for (const [k, step] of this.#steps.entries()) {
      const visit = this.#visits[k]!;
      aim(step, density, before, windows?.[k] ?? { first: 1, last: visit.cells });
      value += fill(step, visit, density, curves);
      const { from, until, first, last, weights } = step;
      const width = last - first + 1;
      const next = step.density;
      next.fill(0);
      for (let i = from; i < until; i++) {
        const weight = density[i]!;
        if (weight === 0) continue;
        const row = (i - from) * width - first;
        for (let j = Math.max(first, i); j <= last; j++) next[j]! += weight * weights[row + j]!;
      }
      value += normalise(next, step);
      before = { first, last };
      density = next;
    }
    return value + this.#fillLater(density);
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
      const { density } = this.#steps[k]!;
      const { cells } = this.#visits[k]!;
      const likely = this.#likely;
      likely.fill(0, 0, cells + 1);
      if (k + 1 === this.#steps.length) {
        for (let i = 1; i <= cells; i++) likely[i] = density[i]! * this.#later[i]!;
      } else this.#weighCutoffs(k, places[k + 1]!);
      places[k] = Math.min(placeAt(likely, cells, shares[k]!), (places[k + 1] ?? Infinity) - APART);
    }
    return places;
  }

  /**
   * After `forward`: for each visit the fronts that matter, given all that was seen, later too.
   * They are fewer by far than those that matter given what was seen until then.
   */
  windows(): Window[] {
    const windows = new Array<Window>(this.#steps.length);
    this.#after.set(this.#later);
    for (let k = this.#steps.length - 1; k >= 0; k--) {
      const { density, from, until, first, last, weights } = this.#steps[k]!;
      const [later, before] = [this.#after, this.#before];
      windows[k] = windowOf(density, later, first, last);
      const width = last - first + 1;
      before.fill(0);
      let largest = 0;
      for (let i = from; i < until; i++) {
        const row = (i - from) * width - first;
        let sum = 0;
        for (let j = Math.max(first, i); j <= last; j++) sum += weights[row + j]! * later[j]!;
        before[i] = sum;
        largest = Math.max(largest, sum);
      }
      for (let i = from; i < until && largest > 0; i++) before[i]! /= largest;
      [this.#after, this.#before] = [before, later];
    }
    return windows;
  }

  /** How likely each front after visit `k` is, if the next one is at `next`. */
  #weighCutoffs(k: number, next: number): void {
    const { density } = this.#steps[k]!;
    const { from, until, first, last, weights } = this.#steps[k + 1]!;
    const width = last - first + 1;
    // The middle of cell j is at 2 j - 1.
    const cell = Math.min(last, Math.max(first, (next + 1) / 2));
    const low = Math.floor(cell);
    const share = cell - low;
    for (let i = Math.max(1, from); i < until; i++) {
      const row = (i - from) * width - first;
      const here = i <= low ? weights[row + low]! : 0;
      const above = share > 0 && i <= low + 1 ? weights[row + low + 1]! : 0;
      this.#likely[i] = density[i]! * ((1 - share) * here + share * above);
    }
  }

  /**
   * The likelihood of what came after, by front, over its largest.
   * @returns ln of its mean over the fronts
   */
  #fillLater(density: Float64Array): number {
    const later = this.#later;
    let best = -Infinity;
    for (let i = 0; i < later.length; i++) {
      if (density[i]! === 0) continue;
      later[i] = this.#end(i);
      best = Math.max(best, later[i]!);
    }
    let sum = 0;
    for (let i = 0; i < later.length; i++) {
      later[i] = density[i]! === 0 ? 0 : Math.exp(later[i]! - best);
      sum += density[i]! * later[i]!;
    }
    return best + Math.log(sum);
  }
}

/** The states at which a front may well be. @param later likelihood of what came after, by state */
function windowOf(density: Float64Array, later: Float64Array, first: number, last: number): Window {
  let largest = 0;
  for (let i = first; i <= last; i++) largest = Math.max(largest, density[i]! * later[i]!);
  const matters = (i: number): boolean => density[i]! * later[i]! > NEGLIGIBLE * largest;
  let low = first;
  while (low < last && !matters(low)) low++;
  let high = last;
  while (high > low && !matters(high)) high--;
  return { first: low, last: high };
}

/** Set the fronts of a step that matter. @param before those after the visit before */
function aim(step: ChainStep, density: Float64Array, before: Window, { first, last }: Window): void {
  let largest = 0;
  for (let i = before.first; i <= before.last; i++) largest = Math.max(largest, density[i]!);
  let from = before.first;
  while (from < before.last && density[from]! <= NEGLIGIBLE * largest) from++;
  let until = before.last + 1;
  while (until > from + 1 && density[until - 1]! <= NEGLIGIBLE * largest) until--;
  step.from = from;
  step.first = Math.max(first, 1, from);
  step.last = Math.max(last, step.first);
  // No front goes back: from one beyond the window none of it can be reached.
  step.until = Math.min(until, step.last + 1);
}

/**
 * Fill the weights of one visit, divided by e^scale so that they do not vanish.
 * @returns scale
 */
function fill(
  step: ChainStep,
  { cells, leaving }: ShortVisit,
  density: Float64Array,
  curves: readonly IncidenceCurve[],
): number {
  const { from, until, first, last } = step;
  // What a cell holds is a difference, so the cell before the first one is needed too.
  const left = Math.max(1, from, first - 1);
  step.first = left;
  const width = last - left + 1;
  const needed = (until - from) * width;
  // With room for the trials that follow, which need a little more or less.
  if (step.weights.length < needed) step.weights = new Float64Array(2 * needed);
  const { weights } = step;
  for (let i = from; i < until; i++) {
    const row = (i - from) * width - left;
    weights.fill(density[i]! === 0 ? 0 : 1, row + Math.max(left, i), row + last + 1);
  }
  let scale = 0;
  for (const { batch, count } of leaving) {
    // No interval is longer than that from the first front to the visit; beside its chance the others are
    // shares.
    const most = curves[batch]!.chance(placeOf(from), 2 * cells);
    scale += count * Math.log(Math.max(LEAST_CHANCE, most));
    if (most > LEAST_CHANCE) curves[batch]!.multiply(step, count, most);
  }
  for (let i = from; i < until; i++) {
    const row = (i - from) * width - left;
    let grown = 0;
    for (let j = Math.max(left, i); j <= last; j++) {
      const now = weights[row + j]!;
      weights[row + j] = j < first ? 0 : now - grown;
      grown = now;
    }
  }
  return scale;
}

/** Divide the fronts of a step by their sum. @returns its logarithm */
function normalise(density: Float64Array, { first, last }: ChainStep): number {
  let sum = 0;
  for (let i = first; i <= last; i++) sum += density[i]!;
  if (sum > 0) for (let i = first; i <= last; i++) density[i]! /= sum;
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
