/**
 * An interval for the mean of a share, whatever its distribution and whenever one stopped to look.
 *
 * A search looks after every season and stops when a plan seems good, so the usual interval would be too narrow; and where every
 * season was alike it would have no width at all. Here a mean is outside if the bets of betting-test.ts would have been
 * evidence against it at any time so far: that happens to the true mean, on either side, with a probability of at most half of
 * 1 - CONFIDENCE, however long one goes on (Waudby-Smith & Ramdas 2024, Journal of the Royal Statistical Society B 86:1,
 * from memory).
 */

import { CONFIDENCE } from '../../engine/student.js';
import type { Estimate } from '../../seasons/sections.js';
import { BettingTest } from './betting-test.js';

/** The smallest stake of the bets, as a part of the purse. */
const SMALLEST_STAKE = 1 / 64;
/** Halvings of the range in which an end is looked for: to 1e-9. */
const HALVINGS = 30;

/** @param shares from 0 to 1, at least one, in the order in which they came */
export function shareEstimate(shares: readonly number[]): Estimate {
  const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length;
  const low = surelyAbove(shares);
  const high = 1 - surelyAbove(shares.map((share) => 1 - share));
  return { mean, low: Math.min(low, mean), high: Math.max(high, mean) };
}

/** The largest mean for which there is evidence that the true one is above it; 0 if there is for none. */
function surelyAbove(shares: readonly number[]): number {
  let low = 0;
  let high = 1;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (isAbove(shares, middle)) low = middle;
    else high = middle;
  }
  return low;
}

function isAbove(shares: readonly number[], p: number): boolean {
  const evidence = new BettingTest(p, SMALLEST_STAKE * (1 - p), (1 - CONFIDENCE) / 2);
  for (const share of shares) {
    evidence.add(share);
    if (evidence.conclusive) return true;
  }
  return false;
}
