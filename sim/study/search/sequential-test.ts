/**
 * Is the mean of a figure at least q? The fully sequential test with a triangular continuation region.
 *
 * The region is that of Kim & Nelson (2001), ACM TOMACS 11:251-273, after Fabian (1974), with c = 1, for one
 * mean against a standard as in Batur & Kim (2010), ACM TOMACS 20(3):13, and Andradottir & Kim (2010), Naval
 * Research Logistics 57:403-421. These articles are cited from memory; seen were a later article that repeats
 * the procedure of Batur & Kim with its region and the equation for eta, and the programs published with
 * Zhou, Andradottir, Kim & Park, "Finding feasible systems for subjective constraints using recycled
 * observations", which compute the same. For seasons with a normal distribution the error is at most beta;
 * betting-test.ts is for all others.
 */

import { power } from '../../engine/power.js';
import { Moments } from '../../engine/tally.js';

/** Whether the mean is at least q. */
export type GoalVerdict = 'meets' | 'misses';

/**
 * The constant of the region: the solution of (1 + 2 eta)^(-(n0 - 1) / 2) / 2 = beta.
 * @param beta probability of a wrong verdict, above 0 and below 1/2
 * @param n0 first observations, from which the variance is taken, at least 2
 * @throws RangeError outside these
 */
export function eta(beta: number, n0: number): number {
  if (!(beta > 0 && beta < 0.5)) throw new RangeError(`beta must be above 0 and below 0.5: ${beta}`);
  if (!(Number.isInteger(n0) && n0 >= 2))
    throw new RangeError(`n0 must be a whole number of at least 2: ${n0}`);
  return (power(2 * beta, -2 / (n0 - 1)) - 1) / 2;
}

/** What a test needs to know. */
export interface TestDesign {
  /** What the mean is compared with. */
  readonly q: number;
  /** Means within `eps` of q may go either way; above 0. */
  readonly eps: number;
  /** Probability of a wrong verdict where the mean is at least `eps` away from q, above 0 and below 1/2. */
  readonly beta: number;
  /** First observations, before which there is no verdict, at least 2. */
  readonly n0: number;
}

/**
 * How far the sum of the differences from q must be from 0 after `r` observations.
 *
 * R(r) = max(0, h2 S2 / (2 c eps) - eps r / (2 c)) with h2 = 2 c eta (n0 - 1) and c = 1.
 * @param variance of the first `n0` observations
 */
export function boundaryAt({ eps, beta, n0 }: TestDesign, variance: number, r: number): number {
  return Math.max(0, (eta(beta, n0) * (n0 - 1) * variance) / eps - (eps * r) / 2);
}

/** The test for one mean, fed one observation at a time. */
export class SequentialTest {
  readonly #design: TestDesign;
  readonly #first = new Moments();
  #count = 0;
  /** Of the differences from q. */
  #sum = 0;

  /** @throws RangeError if `beta`, `n0` or `eps` is out of range */
  constructor(design: TestDesign) {
    eta(design.beta, design.n0);
    if (!(design.eps > 0)) throw new RangeError(`eps must be above 0: ${design.eps}`);
    this.#design = design;
  }

  /** @returns what this and all earlier observations say; null as long as they do not say */
  add(x: number): GoalVerdict | null {
    const { q, n0 } = this.#design;
    this.#count++;
    this.#sum += x - q;
    if (this.#count <= n0) this.#first.add(x);
    if (this.#count < n0) return null;
    const far = boundaryAt(this.#design, this.#first.variance, this.#count);
    // At the tip of the region a sum of exactly 0 is both; the goal is then met to the digit.
    if (this.#sum >= far) return 'meets';
    return this.#sum <= -far ? 'misses' : null;
  }
}
