/**
 * Does a plan meet a goal? One candidate of a search, judged season by season.
 *
 * The search. Every candidate has a cost that is known, and a figure X for each season: a share from 0 to 1,
 * such as the share of weeks with at least so many heads. A candidate meets the goal if the true mean of X is
 * at least q. Candidates are judged in the order of their costs, and the first that meets the goal is taken.
 * With k candidates and beta = alpha / k (Bonferroni's inequality, hence also when all candidates meet the
 * same luck) the probability that every verdict is right is at least 1 - alpha, where a mean within eps of q
 * may go either way; then the one that is taken is the cheapest, or differs from it by such a mean only.
 * Among candidates of equal cost, `Elimination` (selection-elimination.ts) finds the one with the largest
 * mean.
 *
 * A verdict needs two things: the region of Kim & Nelson is left (right for normal seasons), and a game of
 * fair bets has been won that holds for every share (betting-test.ts). The bets are wrong with a
 * probability of at most beta, so the verdict is. Plans that miss the goal mostly wait for the region, plans
 * that meet it for the bets. If every season gives m above q, no test that holds for every share can do with
 * fewer than ln(1 / beta) / ln(m / (q - eps)) seasons: in fewer, failures that bring the mean down to q - eps
 * stay hidden with a probability above beta. The bets need about a quarter more.
 */

import { studentQuantile } from '../../engine/student.js';
import { BettingTest } from './betting-test.js';
import { type GoalVerdict, SequentialTest, type TestDesign } from './sequential-test.js';

/** The test of one candidate. */
export class Feasibility {
  readonly #region: SequentialTest;
  readonly #above: BettingTest;
  readonly #below: BettingTest;
  #verdict: GoalVerdict | null = null;

  /**
   * @throws RangeError if `q` is not from 0 to 1, or `eps`, `beta` or `n0` is out of range (see `Standard`)
   */
  constructor(design: TestDesign) {
    const { q, eps, beta } = design;
    if (!(q >= 0 && q <= 1)) throw new RangeError(`q must be a share from 0 to 1: ${q}`);
    this.#region = new SequentialTest(design);
    this.#above = new BettingTest(q - eps, eps, beta);
    // A mean below q + eps is a mean of what is missing to 1 above 1 - q - eps.
    this.#below = new BettingTest(1 - q - eps, eps, beta);
  }

  /**
   * @param x figure of the next season, a share from 0 to 1
   * @returns null while more seasons are needed; a verdict stays
   * @throws RangeError if `x` is not a share
   */
  add(x: number): GoalVerdict | null {
    if (!(x >= 0 && x <= 1)) throw new RangeError(`x must be a share from 0 to 1: ${x}`);
    if (this.#verdict !== null) return this.#verdict;
    this.#above.add(x);
    this.#below.add(1 - x);
    const says = this.#region.add(x);
    if ((says === 'meets' && this.#above.conclusive) || (says === 'misses' && this.#below.conclusive))
      this.#verdict = says;
    return this.#verdict;
  }
}

/**
 * Observations that it takes to judge a mean without looking before the end: what a search of all candidates
 * would cost.
 *
 * max(n0, ceil(S2 (t / eps)^2)), t the quantile 1 - beta of Student's t with n0 - 1 degrees of freedom: the
 * two-stage procedure of Stein (1945), Annals of Mathematical Statistics 16:243, seen in a textbook and used
 * one-sided.
 * @param variance of the first `n0` observations
 * @param eps as in `TestDesign`
 * @param beta probability of a wrong verdict, above 0 and below 1/2
 * @param n0 first observations, at least 2
 */
export function twoStageSampleSize(variance: number, eps: number, beta: number, n0: number): number {
  const t = studentQuantile(1 - beta, n0 - 1);
  return Math.max(n0, Math.ceil(variance * (t / eps) ** 2));
}
