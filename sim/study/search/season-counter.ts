/** Seasons of a search, counted: how many of their weeks bring the heads of the goal. */

import { Histogram } from '../../engine/tally.js';

/** How a season is counted. */
export interface CountingRule {
  /** Heads that make a good week. */
  readonly heads: number;
  /** First week that counts, from 0. */
  readonly from: number;
  /** Length of a season [weeks]. */
  readonly weeks: number;
}

/** Seasons of a plan, from the first on. */
export interface CountedSeasons {
  /** Good weeks of each season. */
  readonly good: readonly number[];
  /** Picks of all weeks that count: how often each number was picked (see `Histogram.toData`). */
  readonly picks: readonly number[];
}

/** Seasons that are counted as they come. */
export class SeasonCounter {
  readonly good: number[] = [];
  readonly #picks = new Histogram();
  readonly #counting: CountingRule;

  constructor(counting: CountingRule, before?: CountedSeasons) {
    this.#counting = counting;
    if (before === undefined) return;
    this.good.push(...before.good);
    this.#picks.merge(Histogram.from(before.picks));
  }

  /**
   * @param picks of each week, season after season
   * @param season which of them to count
   * @returns share of good weeks of that season
   */
  add(picks: Float64Array, season: number): number {
    const { heads, from, weeks } = this.#counting;
    let good = 0;
    for (let week = from; week < weeks; week++) {
      const picked = picks[season * weeks + week]!;
      this.#picks.add(picked);
      if (picked >= heads) good++;
    }
    this.good.push(good);
    return good / (weeks - from);
  }

  toData(): CountedSeasons {
    return { good: [...this.good], picks: this.#picks.toData() };
  }
}

/** Share of the good weeks of some seasons. */
export function shareMet({ good }: CountedSeasons, { from, weeks }: CountingRule): number {
  return good.reduce((sum, count) => sum + count, 0) / (good.length * (weeks - from));
}
