/**
 * Quantile of Student's t distribution.
 *
 * Method: the expansion about the normal quantile, Abramowitz & Stegun, Handbook of Mathematical Functions, 26.7.5
 * (from memory), followed by Newton steps on the distribution function, whose value is the finite trigonometric sum
 * of 26.7.3 and 26.7.4 (from memory). The tests hold it against independently computed values.
 */

import { lnGamma } from './gamma.js';
import { normalQuantile } from './normal.js';
import { Moments } from './tally.js';

/**
 * @param p probability, above 0 and below 1
 * @param df degrees of freedom, a whole number of at least 1
 * @returns t with P(T <= t) = p
 */
export function studentQuantile(p: number, df: number): number {
  if (!(p > 0 && p < 1 && Number.isInteger(df) && df >= 1)) {
    throw new RangeError(`studentQuantile takes 0 < p < 1 and whole df >= 1: ${p}, ${df}`);
  }
  if (p < 0.5) return -studentQuantile(1 - p, df);
  if (p === 0.5) return 0;
  if (df === 1) return Math.tan(Math.PI * (p - 0.5));
  if (df === 2) return (2 * p - 1) * Math.sqrt(2 / (4 * p * (1 - p)));
  const z = normalQuantile(p);
  const z2 = z * z;
  const z3 = z * z2;
  const z5 = z3 * z2;
  let t =
    z +
    (z3 + z) / (4 * df) +
    (5 * z5 + 16 * z3 + 3 * z) / (96 * df * df) +
    (3 * z5 * z2 + 19 * z5 + 17 * z3 - 15 * z) / (384 * df * df * df);
  // Above, what the expansion leaves out is less than 1e-10 of the quantile, up to 99.95 %.
  if (df > 1000) return t;
  const lnFront = lnGamma((df + 1) / 2) - lnGamma(df / 2) - 0.5 * Math.log(df * Math.PI);
  for (let i = 0; i < 20; i++) {
    const density = Math.exp(lnFront - ((df + 1) / 2) * Math.log1p((t * t) / df));
    const step = (studentProbability(t, df) - p) / density;
    t -= step;
    if (Math.abs(step) <= 1e-13 * t) break;
  }
  return t;
}

/** P(T <= t) for t of at least 0 and at least 3 whole degrees of freedom. */
function studentProbability(t: number, df: number): number {
  const angle = Math.atan(t / Math.sqrt(df));
  const cosine = Math.cos(angle);
  const sine = Math.sin(angle);
  const odd = df % 2 === 1;
  let term = odd ? cosine : 1;
  let sum = term;
  for (let k = odd ? 3 : 2; k <= df - 2; k += 2) {
    term *= (cosine * cosine * (k - 1)) / k;
    sum += term;
  }
  const within = odd ? (2 / Math.PI) * (angle + sine * sum) : sine * sum;
  return (1 + within) / 2;
}

/** Confidence of every interval. */
export const CONFIDENCE = 0.95;

/** Standard errors to either side, by degrees of freedom: a study has many intervals of the same few. */
const halves = new Map<number, number>();

function halfOf(df: number): number {
  const half = halves.get(df) ?? studentQuantile((1 + CONFIDENCE) / 2, df);
  halves.set(df, half);
  return half;
}

/**
 * Interval of a mean, at `CONFIDENCE`.
 * @param error standard error of the mean, estimated with `df` degrees of freedom
 */
export function studentInterval(
  mean: number,
  error: number,
  df: number,
): { readonly mean: number; readonly low: number; readonly high: number } {
  const half = halfOf(df) * error;
  return { mean, low: mean - half, high: mean + half };
}

/** Interval of the mean of at least 2 values, such as what a change brings in each of some seasons with the same luck. */
export function intervalOfMean(values: readonly number[]): ReturnType<typeof studentInterval> {
  const moments = new Moments();
  for (const value of values) moments.add(value);
  return studentInterval(moments.mean, moments.standardError, values.length - 1);
}
