/**
 * Which of k systems has the largest mean? Fully sequential elimination: Kim & Nelson (2001), ACM TOMACS
 * 11:251-273, with c = 1.
 *
 * Valid for normal observations with unknown, different variances, and under common random numbers. The
 * article is cited from memory; constants and rule are as in public programs that cite it, and the tests hold
 * them against a run computed independently. A difference between two systems that no first observation shows
 * has variance 0 and is taken for none: systems that are equal so far are not told apart at any price,
 * because whoever asks would take either.
 */

import { Moments } from '../../engine/tally.js';
import { eta } from './sequential-test.js';

export interface EliminationOptions {
  /** Systems, at least 2. */
  readonly k: number;
  /** The smallest difference of means that matters, above 0. */
  readonly delta: number;
  /**
   * Probability of a wrong pick where the best mean is at least `delta` above the next, above 0 and below
   * 1/2.
   */
  readonly alpha: number;
  /** First rows, from which the variances are taken, at least 2. */
  readonly n0: number;
}

export class Elimination {
  readonly #options: EliminationOptions;
  readonly #h2: number;
  readonly #sums: Float64Array;
  /** Moments of x_i - x_l, l < i, over the first rows: entry [i][l]. */
  readonly #differences: Moments[][];
  #rows = 0;
  #left: number[];

  /** @throws RangeError if an option is out of range */
  constructor(options: EliminationOptions) {
    const { k, delta, alpha, n0 } = options;
    if (!(Number.isInteger(k) && k >= 2))
      throw new RangeError(`k must be a whole number of at least 2: ${k}`);
    if (!(delta > 0)) throw new RangeError(`delta must be above 0: ${delta}`);
    if (!(alpha > 0 && alpha < 0.5)) throw new RangeError(`alpha must be above 0 and below 0.5: ${alpha}`);
    this.#options = options;
    this.#h2 = 2 * eta(alpha / (k - 1), n0) * (n0 - 1);
    this.#sums = new Float64Array(k);
    this.#left = Array.from({ length: k }, (_, i) => i);
    this.#differences = this.#left.map((i) => Array.from({ length: i }, () => new Moments()));
  }

  /** The systems that are still in, ascending. */
  get left(): readonly number[] {
    return this.#left;
  }

  /**
   * @param row one observation of each of the k systems; those of systems that are out are not looked at
   * @returns the pick; null while more rows are needed
   */
  add(row: readonly number[]): number | null {
    const { n0 } = this.#options;
    this.#rows++;
    for (const i of this.#left) this.#sums[i]! += row[i]!;
    if (this.#rows <= n0) {
      this.#differences.forEach((moments, i) => {
        moments.forEach((moment, l) => {
          moment.add(row[i]! - row[l]!);
        });
      });
    }
    if (this.#rows < n0) return null;
    this.#left = this.#left.filter((i) => this.#left.every((l) => !this.#isBeaten(i, l)));
    // Where no pair needs another row, only exact ties are left: any of them is the largest.
    const open = this.#left.some((i) => this.#left.some((l) => l < i && this.#lead(i, l) > 0));
    return open ? null : this.#left[0]!;
  }

  /** How far the mean of one of the two must be ahead now for the other to go. */
  #lead(i: number, l: number): number {
    const { delta } = this.#options;
    const { variance } = this.#differences[Math.max(i, l)]![Math.min(i, l)]!;
    const r = this.#rows;
    return Math.max(0, (delta / (2 * r)) * ((this.#h2 * variance) / delta ** 2 - r));
  }

  #isBeaten(i: number, l: number): boolean {
    return i !== l && this.#sums[i]! / this.#rows < this.#sums[l]! / this.#rows - this.#lead(i, l);
  }
}
