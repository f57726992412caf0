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
 * One batch. The probabilities of its fates are handed over at each call: fate v, cohort j at v x cohorts +
 * j.
 */
export class CohortMixture {
  readonly #sizes: readonly number[];
  readonly #counts: readonly number[];
  /** Numbers that the cohorts but the last can have; 0 if there are too many to go through. */
  readonly #states: number;
  /** From one number of a cohort to the next: the largest of them, which comes last, has its numbers side by side. */
  readonly #strides: readonly number[];
  /** Chances of the states after the fates that were dealt by `begin`. */
  readonly #begun: Float64Array;
  #dealt = 0;
  #chance: Float64Array;
  #next: Float64Array;

  /** @param sizes plants of each cohort, at least two @param counts plants of each fate */
  constructor(sizes: readonly number[], counts: readonly number[]) {
    this.#sizes = sizes;
    this.#counts = counts;
    const free = sizes.slice(0, -1);
    const states = free.reduce((product, size) => product * (size + 1), 1);
    this.#strides = free.map((_, j) => free.slice(j + 1).reduce((product, size) => product * (size + 1), 1));
    const plants = sizes.reduce((sum, size) => sum + size, 0);
    this.#states = states * plants * sizes.length > MOST_STEPS ? 0 : states;
    this.#begun = new Float64Array(this.#states);
    this.#begun[0] = 1;
    this.#chance = new Float64Array(this.#states);
    this.#next = new Float64Array(this.#states);
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
   * Plant by plant, from what `begin` left: the chances of all numbers that the cohorts but the last can have after the
   * fates `from` to `until`, exclusive.
   */
  #deal(chances: Float64Array, t: readonly number[], from: number, until: number): Float64Array {
    const states = this.#states;
    const cohorts = this.#sizes.length;
    const strides = this.#strides;
    let chance = this.#chance;
    let next = this.#next;
    chance.set(this.#begun);
    for (let v = from; v < until; v++) {
      const sum = tilted(chances, v, t);
      if (!(sum > 0)) return chance.fill(0);
      const shares = t.map((tilt, j) => (tilt * chances[v * cohorts + j]!) / sum);
      const rest = shares[cohorts - 1]!;
      for (let i = 0; i < this.#counts[v]!; i++) {
        // Only from its stride on has a cohort a plant; the first one's states are one block.
        for (let state = 0; state < strides[0]!; state++) next[state] = rest * chance[state]!;
        for (let state = strides[0]!; state < states; state++) {
          next[state] = rest * chance[state]! + shares[0]! * chance[state - strides[0]!]!;
        }
        for (let j = 1; j < strides.length; j++) {
          const stride = strides[j]!;
          const share = shares[j]!;
          const block = stride * (this.#sizes[j]! + 1);
          for (let start = 0; share > 0 && start < states; start += block) {
            for (let state = start + stride; state < start + block; state++) {
              next[state]! += share * chance[state - stride]!;
            }
          }
        }
        [chance, next] = [next, chance];
      }
    }
    return chance;
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

/** sum_j t_j p_vj of fate v */
export function tilted(chances: Float64Array, v: number, t: readonly number[]): number {
  let sum = 0;
  for (let j = 0; j < t.length; j++) sum += t[j]! * chances[v * t.length + j]!;
  return sum;
}
