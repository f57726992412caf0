/**
 * Which candidates of a search have to be judged.
 *
 * They are gone through in the order of their costs, until so many are found that meet the goal; at the price at which the first of them
 * is, all are judged, for the best of that price is picked. How many that are depends on verdicts only, so it is the same
 * whoever runs the seasons, and a part of the candidates (with all of a price together) needs at least those of its own
 * that the whole does.
 */

import type { GoalVerdict } from './sequential-test.js';

/** Verdict of a candidate; null if there is none yet. */
export type VerdictOf = (place: number) => GoalVerdict | null;

/**
 * The places that have to be judged, in order. A candidate without a verdict counts as one that misses.
 * @param places in the order of costs
 * @param priceOf the price of each place
 * @param wanted candidates that meet the goal to be found, at least 1
 */
export function* toJudge(
  places: readonly number[],
  priceOf: (place: number) => number,
  verdictOf: VerdictOf,
  wanted: number,
): Generator<number> {
  let found = 0;
  let bestPrice: number | null = null;
  for (const place of places) {
    if (found >= wanted && priceOf(place) !== bestPrice) return;
    yield place;
    if (verdictOf(place) !== 'meets') continue;
    found++;
    bestPrice ??= priceOf(place);
  }
}
