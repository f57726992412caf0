/**
 * What many seasons of one plan gave, in bounded memory: seasons are counted, not kept.
 *
 * Tallies merge, and without rounding: seasons may be tallied in any order and in any parts (see exact-moments.ts).
 */

import { ExactMoments } from '../engine/exact-moments.js';
import { largest } from '../engine/lists.js';
import { Histogram } from '../engine/tally.js';
import { COUNTS, type Season, STATE_COUNT } from '../models/ledger.js';
import type { Plan } from '../models/plan.js';
import { type TakesData, TakesTallies } from './takes-tallies.js';

/** Tallies as plain numbers, to be sent to another thread or written to a file. */
export interface TallyData {
  readonly seasons: number;
  readonly counts: readonly number[];
  readonly ledger: readonly number[];
  readonly weeks: readonly (readonly number[])[];
  readonly first: readonly number[];
  readonly discards: readonly number[];
  /** Only where the plan tells of more than holes. */
  readonly takes?: TakesData | undefined;
}

export class Tallies {
  seasons = 0;
  /** One column for each of COUNTS. */
  readonly counts: ExactMoments;
  /** Stage s, state k in column s x STATE_COUNT + k [hole-days]. */
  readonly ledger: ExactMoments;
  /** Distribution of the picks of each week. */
  readonly weekPicks: Histogram[];
  /** Day of the first pick; seasons without a pick are missing here. */
  readonly firstPickDay: Histogram;
  /** Plants thrown away, of all seasons together: stage s, week w at s x weeks + w. */
  readonly discards: Float64Array;
  /** What the seasons took beyond holes; null where the plan tells nothing of it. */
  readonly takes: TakesTallies | null;

  constructor(plan: Plan, data?: TallyData) {
    const columns = plan.stages.length * STATE_COUNT;
    this.takes = TakesTallies.of(plan, data?.takes);
    if (data === undefined) {
      this.counts = new ExactMoments(COUNTS.length);
      this.ledger = new ExactMoments(columns);
      this.weekPicks = Array.from({ length: plan.weeks }, () => new Histogram());
      this.firstPickDay = new Histogram();
      this.discards = new Float64Array(plan.stages.length * plan.weeks);
      return;
    }
    this.seasons = data.seasons;
    this.counts = ExactMoments.from(COUNTS.length, data.counts);
    this.ledger = ExactMoments.from(columns, data.ledger);
    this.weekPicks = data.weeks.map((week) => Histogram.from(week));
    this.firstPickDay = Histogram.from(data.first);
    this.discards = Float64Array.from(data.discards);
  }

  add(season: Season): void {
    this.seasons++;
    this.counts.add(season.counts);
    this.ledger.add(season.ledger);
    for (let week = 0; week < this.weekPicks.length; week++)
      this.weekPicks[week]!.add(season.weekPicks[week]!);
    for (let i = 0; i < this.discards.length; i++) this.discards[i]! += season.weekDiscards[i]!;
    if (!Number.isNaN(season.firstPick)) this.firstPickDay.add(Math.floor(season.firstPick));
    if (season.takes !== null) this.takes?.add(season.takes);
  }

  /** Take in all that `other`, of the same plan, has counted. */
  merge(other: Tallies): void {
    this.seasons += other.seasons;
    this.counts.merge(other.counts);
    this.ledger.merge(other.ledger);
    for (let week = 0; week < this.weekPicks.length; week++)
      this.weekPicks[week]!.merge(other.weekPicks[week]!);
    this.firstPickDay.merge(other.firstPickDay);
    for (let i = 0; i < this.discards.length; i++) this.discards[i]! += other.discards[i]!;
    if (other.takes !== null) this.takes?.merge(other.takes);
  }

  toData(): TallyData {
    return {
      seasons: this.seasons,
      counts: this.counts.toData(),
      ledger: this.ledger.toData(),
      weeks: this.weekPicks.map((week) => week.toData()),
      first: this.firstPickDay.toData(),
      discards: [...this.discards],
      ...(this.takes === null ? {} : { takes: this.takes.toData() }),
    };
  }
}

/**
 * The first week of a running line: by its beginning, 9 of 10 seasons have had their first pick (see `enoughRun`).
 * @returns number of the week from 0; the number of weeks if there is none
 */
export function firstRunningWeek({ weekPicks, firstPickDay, seasons }: Tallies): number {
  const picked = (week: number): number =>
    Math.round(firstPickDay.shareUpTo(week * 7 - 1) * firstPickDay.total);
  return firstWeek(weekPicks.length, (week) => enoughRun(picked(week), seasons));
}

/**
 * The same of some seasons of which only the picks of each week are known.
 * @param seasons picks of each week, of each season
 */
export function firstRunningWeekOf(seasons: readonly (readonly number[])[], weeks: number): number {
  const firsts = seasons.map((picks) => picks.findIndex((count) => count > 0)).filter((week) => week >= 0);
  return firstWeek(weeks, (week) => enoughRun(firsts.filter((first) => first < week).length, seasons.length));
}

function firstWeek(weeks: number, isRunning: (week: number) => boolean): number {
  for (let week = 1; week < weeks; week++) if (isRunning(week)) return week;
  return weeks;
}

/**
 * Whether so many of some seasons stand for 9 of 10 of all: one season more is then among them in 9 of 10 cases (k of n seasons and that
 * one, in any order: k / (n + 1)). The share of the seasons themselves would be reached too early where they are few; of
 * fewer than 9 all are needed, and say less.
 */
function enoughRun(picked: number, seasons: number): boolean {
  return picked >= Math.min(seasons, Math.ceil((9 * (seasons + 1)) / 10));
}

/**
 * The first week in which every line is running that ever runs.
 * @param firsts first running week of each line (see `firstRunningWeek`)
 * @returns `weeks` if none ever runs
 */
export function firstCommonWeek(firsts: readonly number[], weeks: number): number {
  const running = firsts.filter((week) => week < weeks);
  return running.length === 0 ? weeks : largest(running);
}

/** Picks of the weeks from `from` on, of all seasons together. */
export function picksFrom(tallies: Tallies, from: number): Histogram {
  const all = new Histogram();
  for (let week = from; week < tallies.weekPicks.length; week++) all.merge(tallies.weekPicks[week]!);
  return all;
}

/**
 * Day of the first pick that share `p` of the seasons does not exceed. Seasons without a pick count as later than all
 * others.
 * @returns null if that is one of those
 */
export function firstPickDay(tallies: Tallies, p: number): number | null {
  const picked = tallies.firstPickDay;
  const rank = p * (tallies.seasons - 1);
  if (rank > picked.total - 1) return null;
  return Math.round(picked.quantile(picked.total > 1 ? rank / (picked.total - 1) : 0));
}
