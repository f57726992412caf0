/** What many seasons of one plan gave, in bounded memory: seasons are counted, not kept. Tallies merge. */

import { Counts, Moments } from '../engine/tally.js';
import { COUNTS, type Season, STATE_COUNT } from '../models/ledger.js';
import type { Plan } from '../models/plan.js';

export class Tallies {
  seasons = 0;
  /** One entry for each of COUNTS. */
  readonly counts: Moments[];
  /** Stage s, state k at s x STATE_COUNT + k [hole-days]. */
  readonly ledger: Moments[];
  /** Mean picks of each week. */
  readonly weekMeans: Moments[];
  /** Distribution of the picks of each week. */
  readonly weekPicks: Counts[];
  /** Day of the first pick; seasons without a pick are missing here. */
  readonly firstPickDay = new Counts();

  constructor(plan: Plan) {
    const many = <T>(count: number, make: () => T): T[] => Array.from({ length: count }, make);
    this.counts = many(COUNTS.length, () => new Moments());
    this.ledger = many(plan.stages.length * STATE_COUNT, () => new Moments());
    this.weekMeans = many(plan.weeks, () => new Moments());
    this.weekPicks = many(plan.weeks, () => new Counts());
  }

  add(season: Season): void {
    this.seasons++;
    for (let i = 0; i < this.counts.length; i++) this.counts[i]!.add(season.counts[i]!);
    for (let i = 0; i < this.ledger.length; i++) this.ledger[i]!.add(season.ledger[i]!);
    for (let week = 0; week < this.weekMeans.length; week++) {
      const picks = season.weekPicks[week]!;
      this.weekMeans[week]!.add(picks);
      this.weekPicks[week]!.add(picks);
    }
    if (!Number.isNaN(season.firstPick)) this.firstPickDay.add(Math.floor(season.firstPick));
  }

  /** Take in all that `other`, of the same plan, has counted. */
  merge(other: Tallies): void {
    this.seasons += other.seasons;
    mergeEach(this.counts, other.counts);
    mergeEach(this.ledger, other.ledger);
    mergeEach(this.weekMeans, other.weekMeans);
    for (let week = 0; week < this.weekPicks.length; week++)
      this.weekPicks[week]!.merge(other.weekPicks[week]!);
    this.firstPickDay.merge(other.firstPickDay);
  }
}

function mergeEach(into: readonly Moments[], from: readonly Moments[]): void {
  for (let i = 0; i < into.length; i++) into[i]!.merge(from[i]!);
}

/** Share of seasons that must have had their first pick before a week counts as one of a running line. */
const RUNNING_SHARE = 0.9;

/**
 * The first week of a running line: by its beginning, 9 of 10 seasons have had their first pick.
 * @returns number of the week from 0; the number of weeks if there is none
 */
export function firstRunningWeek(tallies: Tallies): number {
  const weeks = tallies.weekPicks.length;
  const needed = RUNNING_SHARE * tallies.seasons;
  for (let week = 1; week < weeks; week++) {
    const before = tallies.firstPickDay.shareUpTo(week * 7 - 1) * tallies.firstPickDay.total;
    if (before >= needed) return week;
  }
  return weeks;
}
