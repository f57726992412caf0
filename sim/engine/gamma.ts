/**
 * The gamma function and the gamma distribution: what the growth-time laws need of them.
 *
 * Methods, all from memory: ln Gamma by Lanczos' approximation with Godfrey's coefficients (g = 7, n = 9); the
 * regularised incomplete gamma function by its power series below a + 1 and by its continued fraction (modified
 * Lentz) above, as in Abramowitz & Stegun 6.5.29 and 6.5.31; its inverse from the Wilson-Hilferty start by Halley
 * steps. The tests hold them against a reference library and against independently computed quantiles.
 *
 * Own code rather than a library: a reference library of this size costs more start-up time than a whole study.
 */

import { normalQuantile } from './normal.js';

const LANCZOS_G = 7;
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];
/** ln(2 pi) / 2 */
export const HALF_LN_2PI = 0.9189385332046727;

/** ln Gamma(x). @param x above 0 @throws RangeError otherwise */
export function lnGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`lnGamma takes a number above 0: ${x}`);
  // The approximation is best above 1/2; the recurrence brings small arguments there.
  if (x < 0.5) return lnGamma(x + 1) - Math.log(x);
  const z = x - 1;
  let sum = LANCZOS[0]!;
  for (let i = 1; i < LANCZOS.length; i++) sum += LANCZOS[i]! / (z + i);
  const t = z + LANCZOS_G + 0.5;
  return HALF_LN_2PI + (z + 0.5) * Math.log(t) - t + Math.log(sum);
}

/** Most terms of the series or the fraction; about 5 sqrt(a) are needed near x = a. */
const MOST_TERMS = 100_000;

/**
 * The regularised incomplete gamma function P(a, x), or its complement Q(a, x) = 1 - P(a, x).
 * @param a shape, above 0
 * @param x 0 or more
 * @param upper true for Q: accurate where P is near 1
 */
export function regularisedGamma(a: number, x: number, upper = false): number {
  if (!(a > 0 && x >= 0)) throw new RangeError(`regularisedGamma takes a > 0 and x >= 0: ${a}, ${x}`);
  if (x === 0) return upper ? 1 : 0;
  const front = Math.exp(a * Math.log(x) - x - lnGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n < MOST_TERMS && term > sum * 1e-17; n++) {
      term *= x / (a + n);
      sum += term;
    }
    return upper ? 1 - front * sum : front * sum;
  }
  const tiny = 1e-300;
  let b = x + 1 - a;
  let c = 1 / tiny;
  let d = 1 / b;
  let h = d;
  for (let n = 1; n < MOST_TERMS; n++) {
    const an = -n * (n - a);
    b += 2;
    d = an * d + b;
    if (Math.abs(d) < tiny) d = tiny;
    c = b + an / c;
    if (Math.abs(c) < tiny) c = tiny;
    d = 1 / d;
    const step = d * c;
    h *= step;
    // One unit in the last place of 1: nearer it may never come.
    if (Math.abs(step - 1) <= 2.3e-16) break;
  }
  return upper ? front * h : 1 - front * h;
}

/**
 * Quantile of the gamma distribution with scale 1.
 * @param p probability, above 0 and below 1
 * @param a shape, above 0; beyond 1e5 its sums are cut short, and gamma-law.ts has another form
 * @param q 1 - p, for whoever knows it better than by that subtraction
 * @param start about where the quantile lies, for whoever knows; 0 if nobody does
 */
export function gammaQuantile(p: number, a: number, q = 1 - p, start = 0): number {
  if (!(p > 0 && p <= 1 && q > 0 && a > 0))
    throw new RangeError(`gammaQuantile takes 0 < p < 1 and a > 0: ${p}, ${a}`);
  const z = p < 0.5 ? normalQuantile(p) : -normalQuantile(q);
  const root = 1 - 1 / (9 * a) + z / (3 * Math.sqrt(a));
  // Far down the lower tail P(a, x) is x^a / Gamma(a + 1), which starts small shapes better.
  let x = a * root * root * root;
  if (start > 0) x = start;
  else if (!(root > 0) || x < 0.05 * a) x = Math.exp((Math.log(p) + lnGamma(a + 1)) / a);
  const upper = p > 0.5;
  const lnFront = lnGamma(a);
  for (let i = 0; i < 60; i++) {
    const error = upper ? q - regularisedGamma(a, x, true) : regularisedGamma(a, x) - p;
    const density = Math.exp((a - 1) * Math.log(x) - x - lnFront);
    if (!(density > 0)) break;
    const newton = error / density;
    // Halley's correction, kept within its safe range.
    const step = newton / (1 - 0.5 * Math.max(-1, Math.min(1, newton * ((a - 1) / x - 1))));
    const next = x - step > 0 ? x - step : x / 2;
    // The steps converge cubically: after one of 1e-6 the next would be below the last digit.
    const done = Math.abs(next - x) <= 1e-6 * x;
    x = next;
    if (done) break;
  }
  return x;
}
