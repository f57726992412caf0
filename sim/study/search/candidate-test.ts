/** One candidate of a search: its seasons so far, one after the other, and the verdict that comes of them. */

import { Moments } from '../../engine/tally.js';
import type { Estimate } from '../../seasons/sections.js';
import type { Obstacles } from './obstacles.js';
import { type CountedSeasons, type CountingRule, SeasonCounter } from './season-counter.js';
import { Feasibility } from './selection.js';
import { boundaryAt, type GoalVerdict, type TestDesign } from './sequential-test.js';

export interface Tie extends CountedSeasons {
  /** true for the one that was picked. */
  readonly picked: boolean;
}

/** What became of a candidate, as plain data. */
export interface CandidateResult {
  /** Its place in the order of costs. */
  readonly place: number;
  /** null if the seasons do not say yet. */
  readonly verdict: GoalVerdict | null;
  /** The first seasons that every candidate gets. */
  readonly first: CountedSeasons;
  /** All seasons up to the verdict; null if the first ones were enough. */
  readonly judged: CountedSeasons | null;
  /** All seasons, those in which it was held against others of the same price included; null if it was not. */
  readonly tie: Tie | null;
  /** Why it does not meet the goal, for the plan that came nearest where none does; null if that was not looked at. */
  readonly obstacles: Obstacles | null;
  /** What a head costs, of plans that may be found; null if that was not looked at. Only there if the cost is to be least. */
  readonly cost_a_head?: Estimate | null | undefined;
  /** All its seasons if nobody were away, for the plan that is named; null if that was not looked at, or nobody is away. */
  readonly present: CountedSeasons | null;
}

export class CandidateTest {
  readonly place: number;
  /** The verdict; null as long as more seasons are needed. */
  verdict: GoalVerdict | null = null;
  tie: Tie | null = null;
  readonly #design: TestDesign;
  readonly #test: Feasibility;
  readonly #tally: SeasonCounter;
  readonly #shares = new Moments();
  #first: CountedSeasons | null = null;
  #variance = Number.NaN;

  constructor(place: number, design: TestDesign, counting: CountingRule) {
    this.place = place;
    this.#design = design;
    this.#test = new Feasibility(design);
    this.#tally = new SeasonCounter(counting);
  }

  /** Seasons so far. */
  get seasons(): number {
    return this.#tally.good.length;
  }

  /** The verdict; as long as there is none, the one that the seasons so far point to. */
  get guess(): GoalVerdict {
    return this.verdict ?? (this.#shares.mean >= this.#design.q ? 'meets' : 'misses');
  }

  /** Take in seasons that follow one another; what comes after the verdict is not looked at. */
  add(picks: Float64Array, count: number): void {
    for (let i = 0; i < count && this.verdict === null; i++) {
      const share = this.#tally.add(picks, i);
      this.#shares.add(share);
      this.verdict = this.#test.add(share);
      if (this.seasons === this.#design.n0) {
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
    const { q, eps } = this.#design;
    const speed = Math.abs(this.#shares.mean - q) + eps / 2;
    return Math.max(0, Math.ceil(boundaryAt(this.#design, this.#variance, 0) / speed) - this.seasons);
  }

  /** All seasons so far, for somebody who goes on with them. */
  soFar(): CountedSeasons {
    return this.#tally.toData();
  }

  /** @returns null before the first seasons are complete */
  toData(): CandidateResult | null {
    if (this.#first === null) return null;
    return {
      place: this.place,
      verdict: this.verdict,
      first: this.#first,
      judged: this.seasons > this.#design.n0 ? this.soFar() : null,
      tie: this.tie,
      obstacles: null,
      present: null,
    };
  }
}
