/**
 * Mean and spread of columns of figures that lie on the grid of time (or are whole numbers), summed without rounding.
 *
 * Sums in doubles depend on their order in the last digit, so a study that is split between threads or machines would
 * not give the same figures as one that is not. Here the sums and the sums of squares are exact whole numbers of ticks
 * (and of squared ticks), so the order does not matter and parts can be joined in any way.
 *
 * A figure of m ticks is split as m = a x 2^27 + b with |b| <= 2^26, so that a x a, a x b and b x b stay below 2^53; each
 * is summed in two doubles: what is below 2^52, and how often 2^52 was carried.
 */

import { TICKS_PER_DAY } from './clock.js';

const SPLIT = 2 ** 27;
const CARRY = 2 ** 52;
/** Numbers kept for a column: the sums of a and b, then of aa, ab and bb, two numbers each. */
const PER_COLUMN = 8;

export class ExactMoments {
  count = 0;
  readonly width: number;
  readonly #sums: Float64Array;

  /** @param width columns */
  constructor(width: number) {
    this.width = width;
    this.#sums = new Float64Array(width * PER_COLUMN);
  }

  /**
   * Take in one row.
   * @param row one figure a column: multiples of a tick from 0 to 2^29. Nobody checks that here, where every season
   * passes: a figure between two ticks would come out wrong.
   */
  add(row: Float64Array): void {
    const sums = this.#sums;
    this.count++;
    for (let i = 0, at = 0; i < this.width; i++, at += PER_COLUMN) {
      const ticks = row[i]! * TICKS_PER_DAY;
      if (ticks === 0) continue;
      const a = Math.round(ticks / SPLIT);
      const b = ticks - a * SPLIT;
      sums[at]! += a;
      sums[at + 1]! += b;
      this.#addProduct(at + 2, a * a);
      this.#addProduct(at + 4, a * b);
      this.#addProduct(at + 6, b * b);
    }
  }

  /** Take in all that `other` has seen. */
  merge(other: ExactMoments): void {
    const theirs = other.#sums;
    this.count += other.count;
    for (let at = 0; at < this.#sums.length; at += PER_COLUMN) {
      this.#sums[at]! += theirs[at]!;
      this.#sums[at + 1]! += theirs[at + 1]!;
      for (let k = 2; k < PER_COLUMN; k += 2) {
        this.#sums[at + k + 1]! += theirs[at + k + 1]!;
        this.#addProduct(at + k, theirs[at + k]!);
      }
    }
  }

  /** Mean of column `i`; NaN if nothing was added. */
  mean(i: number): number {
    return Number(this.#sum(i)) / TICKS_PER_DAY / this.count;
  }

  /** Standard error of the mean of column `i`; NaN below two rows. */
  standardError(i: number): number {
    if (this.count < 2) return Number.NaN;
    const n = BigInt(this.count);
    // n x sum of squares - square of the sum: no digit is lost to cancellation.
    const spread = Number(n * this.#squares(i) - this.#sum(i) ** 2n);
    return Math.sqrt(spread / (this.count - 1)) / this.count / TICKS_PER_DAY;
  }

  /** All that was summed, as plain numbers. */
  toData(): number[] {
    return [this.count, ...this.#sums];
  }

  /** true if the data can be those of so many columns: whole numbers, no sum below 0, and no spread. */
  static canBe(width: number, data: readonly number[]): boolean {
    if (data.length !== 1 + width * PER_COLUMN || !data.every(Number.isSafeInteger)) return false;
    const moments = ExactMoments.from(width, data);
    const n = BigInt(moments.count);
    for (let i = 0; i < width; i++) {
      const sum = moments.#sum(i);
      if (sum < 0n || n * moments.#squares(i) < sum ** 2n) return false;
    }
    return true;
  }

  /** @throws RangeError if the data are not of that width */
  static from(width: number, data: readonly number[]): ExactMoments {
    if (data.length !== 1 + width * PER_COLUMN)
      throw new RangeError(`not ${width} columns: ${data.length} numbers`);
    const moments = new ExactMoments(width);
    moments.count = data[0]!;
    for (let i = 1; i < data.length; i++) moments.#sums[i - 1] = data[i]!;
    return moments;
  }

  /** Add a number of at most 2^53 to the sum at `at`. */
  #addProduct(at: number, value: number): void {
    const sum = this.#sums[at]! + value;
    if (sum >= CARRY) {
      this.#sums[at] = sum - CARRY;
      this.#sums[at + 1]!++;
    } else if (sum <= -CARRY) {
      this.#sums[at] = sum + CARRY;
      this.#sums[at + 1]!--;
    } else this.#sums[at] = sum;
  }

  /** Ticks, of column `i`. */
  #sum(i: number): bigint {
    const at = i * PER_COLUMN;
    return BigInt(this.#sums[at]!) * BigInt(SPLIT) + BigInt(this.#sums[at + 1]!);
  }

  /** Squared ticks, of column `i`. */
  #squares(i: number): bigint {
    const at = i * PER_COLUMN;
    const product = (k: number): bigint =>
      BigInt(this.#sums[at + k + 1]!) * BigInt(CARRY) + BigInt(this.#sums[at + k]!);
    const split = BigInt(SPLIT);
    return product(2) * split * split + 2n * product(4) * split + product(6);
  }
}
