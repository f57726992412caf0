/**
 * What is counted while time runs, and over many runs.
 *
 * - `Levels`: time-weighted integrals of whole-number levels (how many holes are in a state, for how long).
 * - `Moments`: mean, variance and standard error of a sequence of figures, in floating point (exact-moments.ts: without
 *   rounding).
 * - `Histogram`: of whole numbers, with exact quantiles; its memory depends on their range, not on how many. Histograms merge,
 *   so that parts of a study which were run apart can be joined.
 */

/**
 * Levels that change in jumps, and the area under each of them from 0 to the horizon.
 *
 * A jump of d at time t adds d x (horizon - t) to the area: one multiplication a jump, no bookkeeping of when a level
 * last changed. With times on a power-of-two grid all sums are exact (see clock.ts).
 */
export class Levels {
  /** Area under each level from time 0 to the horizon, if nothing changes any more. */
  readonly areas: Float64Array;
  readonly #levels: Float64Array;
  readonly #horizon: number;

  constructor(count: number, horizon: number) {
    if (!(horizon > 0 && horizon < Infinity))
      throw new RangeError(`horizon must be finite and above 0: ${horizon}`);
    this.areas = new Float64Array(count);
    this.#levels = new Float64Array(count);
    this.#horizon = horizon;
  }

  /** All levels and areas to 0. */
  reset(): void {
    this.areas.fill(0);
    this.#levels.fill(0);
  }

  /** Level `i` is `level` from time `t` on. Times of one level must not run backwards. */
  set(i: number, level: number, t: number): void {
    const jump = level - this.#levels[i]!;
    if (jump !== 0) {
      this.areas[i]! += jump * (this.#horizon - t);
      this.#levels[i] = level;
    }
  }

  // `set` does not call it: a line calls `set` many times in a row, and it must stay short to be inlined there.
  /** Level `i` is higher by `jump` from time `t` on. Times of one level must not run backwards. */
  add(i: number, jump: number, t: number): void {
    this.areas[i]! += jump * (this.#horizon - t);
    this.#levels[i]! += jump;
  }
}

/** Mean and spread of a sequence, by Welford's update (from memory). */
export class Moments {
  count = 0;
  mean = 0;
  /** Sum of squared deviations from the mean. */
  squares = 0;

  add(value: number): void {
    this.count++;
    const off = value - this.mean;
    this.mean += off / this.count;
    this.squares += off * (value - this.mean);
  }

  /** Unbiased variance; NaN below two values. */
  get variance(): number {
    return this.count < 2 ? Number.NaN : this.squares / (this.count - 1);
  }

  /** Standard error of the mean; NaN below two values. */
  get standardError(): number {
    return Math.sqrt(this.variance / this.count);
  }
}

/**
 * Quantile by linear interpolation between order statistics (Hyndman & Fan's type 7, the default of R and numpy).
 * @param p from 0 to 1
 * @param count of the values
 * @param ranked the value of a rank, 0 the lowest
 * @returns NaN if there are no values
 */
export function quantileOf(p: number, count: number, ranked: (rank: number) => number): number {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`p must be from 0 to 1: ${p}`);
  if (count === 0) return Number.NaN;
  const place = p * (count - 1);
  const below = Math.floor(place);
  const low = ranked(below);
  return below === place ? low : low + (place - below) * (ranked(below + 1) - low);
}

/** Histogram of whole numbers of at least 0. */
export class Histogram {
  total = 0;
  /** How often `#lowest + i` was seen. */
  #seen = new Float64Array(0);
  #lowest = 0;

  /** @throws RangeError unless `value` is a whole number of at least 0 */
  add(value: number, times = 1): void {
    if (!(Number.isInteger(value) && value >= 0))
      throw new RangeError(`a count must be a whole number: ${value}`);
    const at = value - this.#lowest;
    if (!(at >= 0 && at < this.#seen.length)) this.#widen(value);
    this.#seen[value - this.#lowest]! += times;
    this.total += times;
  }

  merge(other: Histogram): void {
    for (let i = 0; i < other.#seen.length; i++) {
      if (other.#seen[i]! > 0) this.add(other.#lowest + i, other.#seen[i]!);
    }
  }

  /** As `quantileOf`. */
  quantile(p: number): number {
    return quantileOf(p, this.total, (rank) => this.#ranked(rank));
  }

  /**
   * The least value that share `p` of all do not exceed: a whole number (Hyndman & Fan's type 1).
   * @param p from 0 to 1
   * @returns NaN if nothing was counted
   */
  least(p: number): number {
    if (this.total === 0) return Number.NaN;
    // p x total may be a whole number that comes out a little larger.
    return this.#ranked(Math.max(0, Math.ceil(p * this.total - 1e-9) - 1));
  }

  /** Share of values of at most `value`; NaN if nothing was counted. */
  shareUpTo(value: number): number {
    let sum = 0;
    for (let i = 0; i < this.#seen.length && this.#lowest + i <= value; i++) sum += this.#seen[i]!;
    return sum / this.total;
  }

  /** Mean of the values; NaN if nothing was counted. */
  get mean(): number {
    let sum = 0;
    for (let i = 0; i < this.#seen.length; i++) sum += this.#seen[i]! * (this.#lowest + i);
    return sum / this.total;
  }

  /** Standard error of the mean; NaN below two values. */
  get standardError(): number {
    if (this.total < 2) return Number.NaN;
    const { mean } = this;
    let squares = 0;
    for (let i = 0; i < this.#seen.length; i++) squares += this.#seen[i]! * (this.#lowest + i - mean) ** 2;
    return Math.sqrt(squares / (this.total - 1) / this.total);
  }

  /** All that was counted: the lowest value seen, then how often it and each next one was seen. */
  toData(): number[] {
    if (this.total === 0) return [];
    const first = this.#seen.findIndex((times) => times > 0);
    const last = this.#seen.findLastIndex((times) => times > 0);
    return [this.#lowest + first, ...this.#seen.subarray(first, last + 1)];
  }

  static from(data: readonly number[]): Histogram {
    const counts = new Histogram();
    if (data.length === 0) return counts;
    counts.#lowest = data[0]!;
    counts.#seen = Float64Array.from(data.slice(1));
    for (const times of counts.#seen) counts.total += times;
    return counts;
  }

  /** The value of rank `rank`, 0 the lowest. */
  #ranked(rank: number): number {
    let left = rank;
    let i = 0;
    while (left >= this.#seen[i]!) left -= this.#seen[i++]!;
    return this.#lowest + i;
  }

  /** Make room for `value`, with as much again to spare. */
  #widen(value: number): void {
    const old = this.#seen;
    if (old.length === 0) {
      this.#lowest = value;
      this.#seen = new Float64Array(8);
      return;
    }
    const spare = old.length;
    const lowest = Math.max(0, Math.min(this.#lowest, value < this.#lowest ? value - spare : value));
    const highest = Math.max(
      this.#lowest + old.length - 1,
      value >= this.#lowest + old.length ? value + spare : 0,
    );
    const wide = new Float64Array(highest - lowest + 1);
    wide.set(old, this.#lowest - lowest);
    this.#seen = wide;
    this.#lowest = lowest;
  }
}
