/** The binomial law. */

import { lnGamma } from './gamma.js';

/** P(X >= k) of a binomial X with n trials: the sum of its terms. @param k above the mean */
export function chanceOfAtLeast(k: number, n: number, p: number): number {
  if (p <= 0) return k > 0 ? 0 : 1;
  if (p >= 1) return 1;
  const lnChoose = lnGamma(n + 1) - lnGamma(k + 1) - lnGamma(n - k + 1);
  let term = Math.exp(lnChoose + k * Math.log(p) + (n - k) * Math.log1p(-p));
  let sum = 0;
  // Above the mean each term is smaller than the one before it.
  for (let i = k; i <= n && term > sum * 1e-17; i++) {
    sum += term;
    term *= ((n - i) / (i + 1)) * (p / (1 - p));
  }
  return Math.min(1, sum);
}
