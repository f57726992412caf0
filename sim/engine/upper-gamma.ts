/**
 * The upper incomplete gamma function Gamma(a, x) = integral from x to infinity of s^(a-1) e^-s ds, for any
 * real a.
 *
 * The engine's function takes a above 0 only and loses digits near it; the moments of loss need a from -1 on,
 * where a law is so wide that 1/T has no mean. Methods, from memory: for a below 1 the continued fraction of
 * Abramowitz & Stegun 6.5.31, which holds for every a, from 1 on; below 1, Gamma(a, 1) plus the integral from
 * x to 1 of the power series.
 */

import { lnGamma, regularisedGamma } from './gamma.js';

/** Steps of the fraction; at x = 1 it has settled to the last digit after about 60. */
const STEPS = 100;
/** From here on the value is too small for a double. */
const FAR = 745;

/** @param a any number @param x above 0 */
export function upperGamma(a: number, x: number): number {
  if (x > FAR) return 0;
  if (a >= 1) return Math.exp(lnGamma(a)) * regularisedGamma(a, x, true);
  return x >= 1 ? fraction(a, x) : fraction(a, 1) + upToOne(a, x);
}

/** x^a e^-x / (x + (1-a)/(1 + 1/(x + (2-a)/(1 + 2/(x + ...))))), from its end. */
function fraction(a: number, x: number): number {
  let value = x;
  for (let n = STEPS; n >= 1; n--) value = x + (n - a) / (1 + n / value);
  return Math.exp(a * Math.log(x) - x) / value;
}

/** Integral from x to 1 of s^(a-1) e^-s ds, term by term. */
function upToOne(a: number, x: number): number {
  let sum = 0;
  let sign = 1;
  for (let n = 0; n < 25; n++) {
    const power = a + n;
    // (1 - x^p)/p, which is -ln x at p = 0 and close to it nearby.
    sum += sign * (power === 0 ? -Math.log(x) : -Math.expm1(power * Math.log(x)) / power);
    sign /= -(n + 1);
  }
  return sum;
}
