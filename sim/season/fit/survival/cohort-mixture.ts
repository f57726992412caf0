/**
 * A batch that came into a stage on several dates: which of its plants left when is not known, only how many.
 *
 * Cohort j has c_j plants, and a plant of it meets fate v (moved at the third visit, died before the second,
 * still stands) with probability p_vj. Of the batch n_v plants met fate v. The chance of that is, but for a
 * constant, the coefficient of t_1^c_1 t_2^c_2 ... in the product over v of (sum_j t_j p_vj)^n_v. For any
 * tilts t that is
 *
 *     prod_v (sum_j t_j p_vj)^n_v / prod_j t_j^c_j  x  hit
 *
 * where `hit` is the chance that the cohorts get c_1, c_2, ... plants if each plant with fate v is given to
 * cohort j with probability t_j p_vj / sum_k t_k p_vk. At the best tilts these numbers are the expected ones,
 * the first factor is least and `hit` hardly depends on anything: the saddlepoint of the coefficient.
 * (Daniels, H. E. (1954), "Saddlepoint approximations in statistics", Annals of Mathematical Statistics
 * 25:631-650, from memory.)
 */

import { logDeterminant } from './linear.js';

/** Rounds of scaling; each brings the tilts nearer by a factor, and `hit` makes up for what is left. */
const ROUNDS = 8;
/** Tilts stay within this and one over it: where a cohort can hardly have had its fates they would leave the numbers. */
const MOST_TILT = 1e140;
/** Multiplications beyond which `hit` is taken from the normal law. */
const MOST_STEPS = 5000;

/**
 * States in which all cohorts but the last two have given numbers. The numbers of the one before the last lie side by
 * side, from 0.
 */
interface Row {
  /** The first of them. */
  readonly at: number;
  /** Sum of the given numbers. */
  readonly taken: number;
  /** Cohorts that have any, and how far back the state is in which they have one less. */
  readonly before: readonly { readonly cohort: number; readonly back: number }[];
}

/**
 * One batch. The probabilities of its fates are handed over at each call: fate v, cohort j at v x cohorts +
 * j.
 */
export class CohortMixture {
  readonly #sizes: readonly number[];
  readonly #counts: readonly number[];
  /** Numbers that the cohorts but the last can have; 0 if there are too many to go through. */
  readonly #states: number;
  /** The states by the numbers of all cohorts but the last two. */
  readonly #rows: readonly Row[];
  /** Chances of the states after the fates that were dealt by `begin`. */
  readonly #begun: Float64Array;
  #dealt = 0;
  readonly #chance: Float64Array;
  /** Of one fate, by cohort. */
  readonly #shares: Float64Array;

  /** @param sizes plants of each cohort, at least two @param counts plants of each fate */
  constructor(sizes: readonly number[], counts: readonly number[]) {
    this.#sizes = sizes;
    this.#counts = counts;
    const free = sizes.slice(0, -1);
    const states = free.reduce((product, size) => product * (size + 1), 1);
    const plants = sizes.reduce((sum, size) => sum + size, 0);
    this.#states = states * plants * sizes.length > MOST_STEPS ? 0 : states;
    this.#rows = this.#states === 0 ? [] : rowsOf(free);
    this.#begun = new Float64Array(this.#states);
    this.#begun[0] = 1;
    this.#chance = new Float64Array(this.#states);
    this.#shares = new Float64Array(sizes.length);
  }

  /**
   * The tilts at which the cohorts are expected to have the sizes that they have, nearly: by scaling in turn.
   */
  tilts(chances: Float64Array): number[] {
    const cohorts = this.#sizes.length;
    const t = new Array<number>(cohorts).fill(1);
    const expected = new Array<number>(cohorts);
    for (let round = 0; round < ROUNDS; round++) {
      expected.fill(0);
      for (let v = 0; v < this.#counts.length; v++) {
        const sum = tilted(chances, v, t);
        if (!(sum > 0)) continue;
        for (let j = 0; j < cohorts; j++) {
          expected[j]! += (this.#counts[v]! * t[j]! * chances[v * cohorts + j]!) / sum;
        }
      }
      for (let j = 0; j < cohorts; j++) {
        if (!(expected[j]! > 0)) continue;
        t[j] = Math.min(MOST_TILT, Math.max(1 / MOST_TILT, (t[j]! * this.#sizes[j]!) / expected[j]!));
      }
    }
    return t;
  }

  /** Deal the first so many fates once, for all calls of `hit` with the same chances of these and the same tilts. */
  begin(chances: Float64Array, t: readonly number[], fates: number): void {
    if (this.#states === 0) return;
    this.#dealt = fates;
    this.#begun.fill(0);
    this.#begun[0] = 1;
    this.#begun.set(this.#deal(chances, t, 0, fates));
  }

  /** The chance that the cohorts get exactly their sizes, each plant given away by itself. */
  hit(chances: Float64Array, t: readonly number[]): number {
    if (this.#states === 0) return this.#normalHit(chances, t);
    return this.#deal(chances, t, this.#dealt, this.#counts.length)[this.#states - 1]!;
  }

  /**
   * Plant by plant, from what `begin` left: the chances of the numbers that the cohorts but the last can have after the
   * fates `from` to `until`, exclusive. Of numbers from which the sizes cannot be reached any more it tells nothing.
   */
  #deal(chances: Float64Array, t: readonly number[], from: number, until: number): Float64Array {
    const cohorts = this.#sizes.length;
    const chance = this.#chance;
    const shares = this.#shares;
    let plants = 0;
    for (let v = 0; v < from; v++) plants += this.#counts[v]!;
    chance.set(this.#begun);
    for (let v = from; v < until; v++) {
      const sum = tilted(chances, v, t);
      if (!(sum > 0)) return chance.fill(0);
      for (let j = 0; j < cohorts; j++) shares[j] = (t[j]! * chances[v * cohorts + j]!) / sum;
      for (let i = 0; i < this.#counts[v]!; i++) this.#give(++plants);
    }
    return chance;
  }

  /**
   * One plant more, given away by the shares: from the largest numbers down, so that each is read before it is written.
   * @param plants that are given away with it
   */
  #give(plants: number): void {
    const chance = this.#chance;
    const shares = this.#shares;
    const free = this.#sizes.length - 1;
    const most = this.#sizes[free - 1]!;
    const room = this.#sizes[free]!;
    const rest = shares[free]!;
    const share = shares[free - 1]!;
    for (let r = this.#rows.length - 1; r >= 0; r--) {
      const { at, taken, before } = this.#rows[r]!;
      const first = Math.max(0, plants - taken - room);
      const last = Math.min(most, plants - taken);
      // With two cohorts, and with three, there is at most one row before; these are nearly all.
      if (before.length <= 1) {
        const other = before.length === 0 ? 0 : shares[before[0]!.cohort]!;
        const back = before.length === 0 ? 0 : before[0]!.back;
        for (let state = at + last; state >= at + first; state--) {
          const one = state === at ? 0 : share * chance[state - 1]!;
          chance[state] = rest * chance[state]! + other * chance[state - back]! + one;
        }
        continue;
      }
      for (let state = at + last; state >= at + first; state--) {
        let sum = rest * chance[state]!;
        for (const { cohort, back } of before) sum += shares[cohort]! * chance[state - back]!;
        chance[state] = state === at ? sum : sum + share * chance[state - 1]!;
      }
    }
  }

  /**
   * By the normal law about the expected numbers: 1 / sqrt(det(1 + 2 pi C)) with C their covariance. The 1
   * keeps the chance at 1 where there is no doubt which plant belongs to which cohort.
   */
  #normalHit(chances: Float64Array, t: readonly number[]): number {
    const cohorts = this.#sizes.length;
    const free = t.slice(1);
    const matrix = free.map((_, i) => free.map((_, j): number => (i === j ? 1 : 0)));
    for (let v = 0; v < this.#counts.length; v++) {
      const sum = tilted(chances, v, t);
      if (!(sum > 0)) return 0;
      for (let i = 0; i < free.length; i++) {
        const expected = (this.#counts[v]! * t[i]! * chances[v * cohorts + i]!) / sum;
        matrix[i]![i]! += 2 * Math.PI * expected;
        for (let j = 0; j < free.length; j++) {
          matrix[i]![j]! -= (2 * Math.PI * expected * t[j]! * chances[v * cohorts + j]!) / sum;
        }
      }
    }
    return Math.exp(-(logDeterminant(matrix) ?? 0) / 2);
  }
}

/** @param free sizes of all cohorts but the last */
function rowsOf(free: readonly number[]): Row[] {
  const strides = free.map((_, j) => free.slice(j + 1).reduce((product, size) => product * (size + 1), 1));
  let rows: Row[] = [{ at: 0, taken: 0, before: [] }];
  for (const [cohort, size] of free.slice(0, -1).entries()) {
    const back = strides[cohort]!;
    rows = rows.flatMap(({ at, taken, before }) =>
      Array.from({ length: size + 1 }, (_, number) => ({
        at: at + number * back,
        taken: taken + number,
        before: number === 0 ? before : [...before, { cohort, back }],
      })),
    );
  }
  return rows;
}

/** sum_j t_j p_vj of fate v */
export function tilted(chances: Float64Array, v: number, t: readonly number[]): number {
  let sum = 0;
  for (let j = 0; j < t.length; j++) sum += t[j]! * chances[v * t.length + j]!;
  return sum;
}
