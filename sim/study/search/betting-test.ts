/**
 * Evidence that the mean of a share is above a given one, whatever the distribution of the share.
 *
 * Why: the region of sequential-test.ts takes its width from the variance of the first seasons. Shares of
 * good weeks are often all equal there, for instance 1, and the width is then 0: twenty good seasons would
 * count as proof, although one season in ten may be a failure that has not happened yet.
 *
 * The evidence is a game. Somebody with a purse of 1 stakes a part f of it, season after season, on a share x
 * above p, so that the purse is multiplied by 1 + f (x - p) / p: never below 0 for a share from 0 to 1, and
 * fair or worse if the mean is p or less. By Ville's inequality such a purse then ever reaches 1 / beta with
 * a probability of at most beta, at whatever season the game is stopped. So a purse of 1 / beta is evidence
 * for a mean above p with an error of at most beta. (Ville 1939; for means of bounded figures Waudby-Smith &
 * Ramdas 2024, Journal of the Royal Statistical Society B 86:1-27, of which the abstract was seen; the rest
 * from memory.)
 *
 * Which f is best depends on the distribution: all of the purse when bad seasons are rare or never come,
 * little when seasons are either 0 or 1. So the purse is split evenly over several. The smallest is at most
 * Kelly's stake for a share that is 0 or 1 with a mean of p + gap, of all shares with that mean the one that
 * spreads most: then the purse grows in the long run whenever the mean is at least p + gap.
 */

export class BettingTest {
  readonly #p: number;
  readonly #enough: number;
  readonly #stakes: number[] = [];
  readonly #purses: number[];
  #given: boolean;

  /**
   * @param p the mean that the true one must be shown to be above
   * @param gap the evidence comes, sooner or later, if the true mean is at least p + gap; above 0
   * @param beta probability of evidence where there should be none
   */
  constructor(p: number, gap: number, beta: number) {
    this.#p = p;
    // No share has a mean below 0: there is nothing to show.
    this.#given = !(p > 0);
    let stake = 1;
    this.#stakes.push(stake);
    while (stake > gap / (1 - p)) {
      stake /= 2;
      this.#stakes.push(stake);
    }
    this.#purses = this.#stakes.map(() => 1);
    this.#enough = this.#stakes.length / beta;
  }

  /** true once there was enough evidence; it stays so. */
  get conclusive(): boolean {
    return this.#given;
  }

  /** @param x a share, from 0 to 1 */
  add(x: number): void {
    if (this.#given) return;
    const odds = (x - this.#p) / this.#p;
    let sum = 0;
    for (let i = 0; i < this.#purses.length; i++) {
      this.#purses[i]! *= 1 + this.#stakes[i]! * odds;
      sum += this.#purses[i]!;
    }
    this.#given = sum >= this.#enough;
  }
}
