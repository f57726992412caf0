/** What a search saves: the seasons that judging every candidate would take if nobody looked before the end. */

import { Moments } from '../../engine/tally.js';
import { twoStageSampleSize } from './selection.js';
import type { TestDesign } from './sequential-test.js';

/**
 * Seasons that a verdict on one candidate takes, for the same probability and the same indifference.
 *
 * Where the first seasons were all alike the variance says nothing, but no test can do with fewer than n seasons with
 * (q - eps)^n = beta to say that a mean is above q - eps: so often a plan of that mean, in which a season is good as a whole or
 * not at all, has n good ones in a row. (Below q + eps alike.)
 * @param shares figures of the first seasons
 */
export function fullSampleSize(shares: readonly number[], { q, eps, beta, n0 }: TestDesign): number {
  const seen = new Moments();
  for (const share of shares) seen.add(share);
  const need = twoStageSampleSize(seen.variance, eps, beta, n0);
  if (seen.variance > 0) return need;
  const chance = seen.mean >= q ? q - eps : 1 - q - eps;
  return chance > 0 ? Math.max(need, Math.ceil(Math.log(beta) / Math.log(chance))) : need;
}
