/**
 * What a figure may be: its mean over many futures, and the range from 10 to 90 % of them. Quantiles are those of all other
 * results (engine/tally.ts). Of whole numbers such a range often holds more than eight in ten, since both its ends belong to it.
 */

import { Moments, quantileOf } from '../../engine/tally.js';

export interface Forecast {
  readonly mean: number;
  /** Standard error of the mean; null of one future. */
  readonly se: number | null;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
}

/**
 * @param values one for each future, at least one
 * @param futures how many there are; in those behind the values the figure is 0
 */
export function forecastOf(values: ArrayLike<number>, futures = values.length): Forecast {
  const sorted = new Float64Array(futures);
  sorted.set(values);
  sorted.sort();
  const moments = new Moments();
  let sum = 0;
  for (const value of sorted) {
    moments.add(value);
    sum += value;
  }
  const quantile = (p: number): number => quantileOf(p, sorted.length, (rank) => sorted[rank]!);
  return {
    // Of whole numbers to the last digit.
    mean: sum / sorted.length,
    se: moments.count < 2 ? null : moments.standardError,
    p10: quantile(0.1),
    p50: quantile(0.5),
    p90: quantile(0.9),
  };
}

/** The whole day that is nearest to a quantile of days [d]. @param days at least one */
export function dayBy(days: ArrayLike<number>, p: number): number {
  const sorted = Float64Array.from(days).sort();
  return Math.round(quantileOf(p, sorted.length, (rank) => sorted[rank]!));
}
