/**
 * What a figure may be: its mean over many futures, and the range that holds eight in ten of them.
 *
 * Quantiles by the mid-distribution function, which counts half of those that have just the value itself: P(X < x) + P(X = x)/2,
 * joined by straight lines. Plain quantiles of whole numbers make a range from 10 to 90 % that holds more than eight in ten,
 * since both ends belong to it as a whole. (Ma, Genton & Parzen (2011), "Asymptotic properties of sample quantiles of
 * discrete distributions", Annals of the Institute of Statistical Mathematics 63:227-243, from memory. Of figures that
 * are all different it is Hyndman & Fan's type 5.)
 */

import { Moments } from '../../engine/tally.js';

export interface Range {
  readonly mean: number;
  /** Standard error of the mean; null of one future. */
  readonly se: number | null;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
}

/** @param values one for each future, at least one */
export function rangeOf(values: ArrayLike<number>): Range {
  const sorted = Float64Array.from(values).sort();
  const moments = new Moments();
  let sum = 0;
  for (const value of sorted) {
    moments.add(value);
    sum += value;
  }
  return {
    // Of whole numbers to the last digit.
    mean: sum / sorted.length,
    se: moments.count < 2 ? null : moments.standardError,
    p10: quantile(sorted, 0.1),
    p50: quantile(sorted, 0.5),
    p90: quantile(sorted, 0.9),
  };
}

/** @param sorted ascending, at least one @param p above 0 and below 1 */
export function quantile(sorted: Float64Array, p: number): number {
  const place = p * sorted.length;
  let before = sorted[0]!;
  let placeBefore = Number.NEGATIVE_INFINITY;
  for (let from = 0; from < sorted.length; ) {
    const value = sorted[from]!;
    let to = from;
    while (to < sorted.length && sorted[to] === value) to++;
    const middle = (from + to) / 2;
    if (place <= middle) {
      const way =
        placeBefore === Number.NEGATIVE_INFINITY ? 1 : (place - placeBefore) / (middle - placeBefore);
      return before + way * (value - before);
    }
    before = value;
    placeBefore = middle;
    from = to;
  }
  return before;
}

/** Which day it is by when a share `p` of what happened on some days has happened: one of those days. @param sorted as above */
export function dayBy(sorted: Float64Array, p: number): number {
  return sorted[Math.floor(p * sorted.length)]!;
}
