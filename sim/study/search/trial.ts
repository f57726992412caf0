/** One candidate of a search: its seasons so far, one after the other, and the verdict that comes of them. */

import { Counts, Moments } from '../../engine/tally.js';
import { Feasibility } from './selection.js';
import { reach, type Standard, type Verdict } from './selection-region.js';

/** How a season is counted. */
export interface Counting {
  /** Heads that make a good week. */
  readonly heads: number;
  /** First week that counts, from 0. */
  readonly from: number;
  /** Length of a season [weeks]. */
  readonly weeks: number;
}

/** Seasons of a plan, from the first on. */
export interface Seasons {
  /** Good weeks of each season. */
  readonly good: readonly number[];
  /** Picks of all weeks that count: how often each number was picked (see `Counts.toData`). */
  readonly picks: readonly number[];
}

export interface Tie extends Seasons {
  /** true for the one that was picked. */
  readonly picked: boolean;
}

/** What became of a candidate, as plain data. */
export interface TrialData {
  /** Its place in the order of costs. */
  readonly place: number;
  /** null if the seasons do not say yet. */
  readonly verdict: Verdict | null;
  /** The first seasons that every candidate gets. */
  readonly first: Seasons;
  /** All seasons up to the verdict; null if the first ones were enough. */
  readonly judged: Seasons | null;
  /** All seasons, those in which it was held against others of the same price included; null if it was not. */
  readonly tie: Tie | null;
}

/** Seasons that are counted as they come. */
export class Tally {
  readonly good: number[] = [];
  readonly #picks = new Counts();
  readonly #counting: Counting;

  constructor(counting: Counting, before?: Seasons) {
    this.#counting = counting;
    if (before === undefined) return;
    this.good.push(...before.good);
    this.#picks.merge(Counts.from(before.picks));
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

  toData(): Seasons {
    return { good: [...this.good], picks: this.#picks.toData() };
  }
}

export class Trial {
  readonly place: number;
  /** The verdict; null as long as more seasons are needed. */
  verdict: Verdict | null = null;
  tie: Tie | null = null;
  readonly #standard: Standard;
  readonly #test: Feasibility;
  readonly #tally: Tally;
  readonly #shares = new Moments();
  #first: Seasons | null = null;
  #variance = Number.NaN;

  constructor(place: number, standard: Standard, counting: Counting) {
    this.place = place;
    this.#standard = standard;
    this.#test = new Feasibility(standard);
    this.#tally = new Tally(counting);
  }

  /** Seasons so far. */
  get seasons(): number {
    return this.#tally.good.length;
  }

  /** The verdict; as long as there is none, the one that the seasons so far point to. */
  get guess(): Verdict {
    return this.verdict ?? (this.#shares.mean >= this.#standard.q ? 'meets' : 'misses');
  }

  /** Take in seasons that follow one another; what comes after the verdict is not looked at. */
  add(picks: Float64Array, count: number): void {
    for (let i = 0; i < count && this.verdict === null; i++) {
      const share = this.#tally.add(picks, i);
      this.#shares.add(share);
      this.verdict = this.#test.add(share);
      if (this.seasons === this.#standard.n0) {
        this.#first = this.#tally.toData();
        this.#variance = this.#shares.variance;
      }
    }
  }

  /**
   * Seasons that a verdict will probably still take: until the sum of the differences from the goal, if it goes on as so far,
   * leaves the region. A guess, to plan the work by; no verdict rests on it.
   */
  get left(): number {
    if (this.verdict !== null) return 0;
    const { q, eps } = this.#standard;
    const speed = Math.abs(this.#shares.mean - q) + eps / 2;
    return Math.max(0, Math.ceil(reach(this.#standard, this.#variance, 0) / speed) - this.seasons);
  }

  /** All seasons so far, for somebody who goes on with them. */
  soFar(): Seasons {
    return this.#tally.toData();
  }

  /** @returns null before the first seasons are complete */
  toData(): TrialData | null {
    if (this.#first === null) return null;
    return {
      place: this.place,
      verdict: this.verdict,
      first: this.#first,
      judged: this.seasons > this.#standard.n0 ? this.soFar() : null,
      tie: this.tie,
    };
  }
}
