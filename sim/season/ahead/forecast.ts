/**
 * What a figure may be: its mean over many futures, and the range from 10 to 90 % of them. Quantiles are those of all other
 * results (engine/tally.ts). Of whole numbers the range from one quantile to the other holds more than eight in ten, since both
 * its ends belong to it; so what is told in whole numbers is the range whose share of the futures is nearest to eight in ten.
 */

import { Moments, quantileOf } from '../../engine/tally.js';

export interface Forecast {
  readonly mean: number;
  /** Standard error of the mean; null of one future. */
  readonly se: number | null;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
  /** Whole numbers, the ends of the range at the quantiles that about eight in ten futures stay within. */
  readonly low: number;
  readonly high: number;
  /** Share of the futures that stay within it, its ends included. */
  readonly share: number;
}

/** Share of the futures that a range should hold. */
const WITHIN = 0.8;

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
  const [p10, p90] = [quantile(0.1), quantile(0.9)];
  return {
    // Of whole numbers to the last digit.
    mean: sum / sorted.length,
    se: moments.count < 2 ? null : moments.standardError,
    p10,
    p50: quantile(0.5),
    p90,
    ...wholeRange(sorted, p10, p90),
  };
}

/**
 * The range whose share is nearest to eight in ten, of those that begin or end at the quantiles or one further in. Where both
 * read as one whole number it is that one.
 */
function wholeRange(sorted: Float64Array, p10: number, p90: number) {
  const [least, most] = [Math.floor(p10), Math.ceil(p90)];
  const middle = Math.round(p10);
  const ranges =
    middle === Math.round(p90)
      ? [{ low: middle, high: middle }]
      : [least, least + 1].flatMap((low) => [most, most - 1].map((high) => ({ low, high })));
  return ranges
    .filter(({ low, high }) => low <= high)
    .map((range) => ({ ...range, share: shareWithin(sorted, range) }))
    .reduce((best, one) => (Math.abs(one.share - WITHIN) < Math.abs(best.share - WITHIN) ? one : best));
}

/** A figure with a fraction is one of a single number if it reads as that. */
function shareWithin(values: Float64Array, { low, high }: { low: number; high: number }): number {
  let count = 0;
  const of = low === high ? Math.round : (value: number): number => value;
  for (const value of values) if (of(value) >= low && of(value) <= high) count++;
  return count / values.length;
}

/** The whole day that is nearest to a quantile of days [d]. @param days at least one */
export function dayBy(days: ArrayLike<number>, p: number): number {
  const sorted = Float64Array.from(days).sort();
  return Math.round(quantileOf(p, sorted.length, (rank) => sorted[rank]!));
}
