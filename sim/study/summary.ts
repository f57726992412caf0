/** Tallies turned into the result of a study: plain data, as it is printed with --json. */

import type { ExactMoments } from '../engine/exact-moments.js';
import { isoOfDay } from '../models/dates.js';
import { COUNTS, type CountName, type HoleState, STATE_COUNT, STATES } from '../models/ledger.js';
import { holesOf, type Plan, seasonDays } from '../models/plan.js';
import type { Estimate } from '../seasons/sections.js';
import { firstPickDay, firstRunningWeek, type Tallies } from '../seasons/tallies.js';
import { sectionsFor } from '../seasons/workload.js';
import type { TrialSeason, WorkloadTallies } from '../seasons/workload-tallies.js';
import { type Bottleneck, findBottleneck, trialSeasons } from './bottleneck.js';
import { figureOf } from './figures/estimates.js';
import { type FigureName, ofFigures } from './figures/figures.js';
import { samplesFrom } from './figures/samples.js';
import { ofSeasons, type Study } from './study.js';
import { type Takes, takesOf } from './takes/takes.js';
import { presentJobs, type WeekFigures, weekFigures } from './week-figures.js';

/** An average over seasons and its standard error (null when there was one season only). */
export interface Mean {
  readonly mean: number;
  readonly se: number | null;
}

/** Picks of one week of the calendar, over seasons. Quantiles are of type 7. */
export interface WeekResult extends Mean {
  /** ISO date of its first day. */
  readonly start: string;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
}

export interface StageResult {
  readonly name: string;
  readonly channels: number;
  readonly holes: number;
  /** Hole-days in each state. */
  readonly ledger: Readonly<Record<HoleState, Mean>>;
  /** Holes x days of the season [d]. */
  readonly hole_days: number;
  /** Figures of the stage by name; null where there is none. */
  readonly figures: Readonly<Record<FigureName<'stage'>, Estimate | null>>;
  /** Plants that were ready for too long, mean of a season: in all, and in each week of the calendar. */
  readonly thrown_away: { readonly mean: number; readonly weeks: readonly number[] };
}

/** Picks a week once the line runs: all weeks from `from` on, of all seasons, taken together. */
export interface RunningWeeks extends WeekFigures {
  /** ISO date of the first of these weeks. */
  readonly from: string;
  readonly weeks: number;
  /** The same weeks if nobody were away; null if nobody is. */
  readonly without_absence: WeekFigures | null;
  /** ISO dates of those that an absence makes bad: bad (as in `p10`) in most seasons, and not if nobody were away. */
  readonly bad_by_absence: readonly string[];
}

/** When the first head is picked. Dates are null for the seasons (share `never`) in which nothing is. */
export interface FirstPick {
  readonly p10: string | null;
  readonly p50: string | null;
  readonly p90: string | null;
  /** Days from the start, of the middle season. */
  readonly p50_days: number | null;
  readonly never: number;
}

/** When somebody comes. */
export interface Attended {
  /** Visits of the season; null with `visits: always`. */
  readonly visits: number | null;
  /** Days on which heads can be picked: those of a visit, with `want` only if heads are wanted then. null: all the time. */
  readonly pick_days: number | null;
  /** ISO date of the last of them; null if there is none, or if it is all the time. */
  readonly last_pick_day: string | null;
}

/** With what the plan takes, where the scenario tells more than holes. */
export interface RunResult extends Takes {
  readonly title: string;
  readonly start: string;
  readonly seed: number;
  readonly seasons: number;
  /** true if fewer seasons were run than asked for. */
  readonly partial: boolean;
  readonly attended: Attended;
  readonly counts: Readonly<Record<CountName, Mean>>;
  readonly running: RunningWeeks | null;
  readonly first_pick: FirstPick;
  readonly limits: Bottleneck | null;
  readonly weeks: readonly WeekResult[];
  readonly stages: readonly StageResult[];
  /** Figures of the whole line by name; null where there is none (no week of a running line, nothing picked). */
  readonly figures: RunFigures;
}

export type RunFigures = Readonly<Record<FigureName<'whole'>, Estimate | null>>;

/**
 * @param partial true if the study was stopped before all seasons were run
 * @param sections of `tallies` (see sections.ts); without them figures have no intervals
 * @param present the same seasons if nobody were away; null if nobody is
 */
export function summarise(
  plan: Plan,
  seed: number,
  tallies: Tallies,
  limits: Bottleneck | null,
  partial: boolean,
  sections: readonly (Tallies | null)[] = [],
  present: Tallies | null = null,
): RunResult {
  const from = firstRunningWeek(tallies);
  const samples = samplesFrom(plan, from, tallies, sections);
  const figures = ofFigures('whole', (figure) => figureOf(samples, figure), plan);
  return {
    title: plan.title,
    start: plan.start,
    seed,
    seasons: tallies.seasons,
    partial,
    attended: attendedOf(plan),
    counts: record(COUNTS, (i) => meanOf(tallies.counts, i)),
    running: from < plan.weeks ? runningWeeks(plan, from, tallies, present) : null,
    first_pick: firstPick(plan, tallies),
    limits,
    weeks: tallies.weekPicks.map((picks, week) => ({
      start: isoOfDay(plan.start, week * 7),
      mean: picks.mean,
      se: picks.total < 2 ? null : picks.standardError,
      p10: picks.quantile(0.1),
      p50: picks.quantile(0.5),
      p90: picks.quantile(0.9),
    })),
    stages: plan.stages.map((stage, s) => ({
      name: stage.name,
      channels: stage.channels,
      holes: holesOf(stage),
      hole_days: holesOf(stage) * seasonDays(plan),
      ledger: record(STATES, (k) => meanOf(tallies.ledger, s * STATE_COUNT + k)),
      figures: ofFigures('stage', (figure) => figureOf(samples, figure, s), plan),
      thrown_away: thrownAway(
        tallies.discards.subarray(s * plan.weeks, (s + 1) * plan.weeks),
        tallies.seasons,
      ),
    })),
    figures,
    ...takesOf(samples.all, samples.sections),
  };
}

function record<Name extends string>(names: readonly Name[], value: (i: number) => Mean): Record<Name, Mean> {
  return Object.fromEntries(names.map((name, i) => [name, value(i)])) as Record<Name, Mean>;
}

function thrownAway(plants: Float64Array, seasons: number): StageResult['thrown_away'] {
  return {
    mean: plants.reduce((sum, count) => sum + count, 0) / seasons,
    weeks: Array.from(plants, (count) => count / seasons),
  };
}

function meanOf(moments: ExactMoments, i: number): Mean {
  return { mean: moments.mean(i), se: moments.count < 2 ? null : moments.standardError(i) };
}

function attendedOf({ start, visits, want }: Plan): Attended {
  const days = visits.kind === 'always' ? null : visits.days;
  const there = new Set(days);
  const picks = want === null ? days : days === null ? want.days : want.days.filter((day) => there.has(day));
  const last = picks?.at(-1);
  return {
    visits: days?.length ?? null,
    pick_days: picks?.length ?? null,
    last_pick_day: last === undefined ? null : isoOfDay(start, last),
  };
}

function runningWeeks(plan: Plan, from: number, tallies: Tallies, present: Tallies | null): RunningWeeks {
  const figures = weekFigures(plan, from, tallies);
  const mostlyBad = (of: Tallies, week: number): boolean => of.weekPicks[week]!.shareUpTo(figures.p10) > 0.5;
  const weeks = Array.from({ length: plan.weeks - from }, (_, i) => from + i);
  return {
    from: isoOfDay(plan.start, from * 7),
    weeks: weeks.length,
    ...figures,
    without_absence: present && weekFigures(plan, from, present),
    bad_by_absence: weeks
      .filter((week) => present !== null && mostlyBad(tallies, week) && !mostlyBad(present, week))
      .map((week) => isoOfDay(plan.start, week * 7)),
  };
}

function firstPick(plan: Plan, tallies: Tallies): FirstPick {
  const day = (p: number): number | null => firstPickDay(tallies, p);
  const date = (d: number | null): string | null => (d === null ? null : isoOfDay(plan.start, d));
  return {
    p10: date(day(0.1)),
    p50: date(day(0.5)),
    p90: date(day(0.9)),
    p50_days: day(0.5),
    never: 1 - tallies.firstPickDay.total / tallies.seasons,
  };
}

/** What seasons of a plan are asked for, and in how many of the first ones changes are tried. */
interface AskedSeasons {
  readonly seasons: number;
  readonly trials: number;
}

/**
 * What seasons of one plan come to.
 * @param tried seasons with changes; what holds the line back is told only from as many as were asked for: fewer would say less
 * than they seem to
 * @param present tallies of the same seasons if nobody is away; null if they are not known, or nobody is away anyway
 * @returns null if no season was run
 */
export function concludeRun(
  plan: Plan,
  seed: number,
  { seasons, trials }: AskedSeasons,
  gathered: WorkloadTallies,
  tried: readonly TrialSeason[],
  present: Tallies | null,
): RunResult | null {
  const tallies = gathered.whole(0);
  if (tallies.seasons === 0) return null;
  const limits = tried.length === trials ? findBottleneck(plan, tried, firstRunningWeek(tallies)) : null;
  const partial = tallies.seasons < seasons;
  return summarise(plan, seed, tallies, limits, partial, gathered.sectionsOf(0), present);
}

/**
 * The study of one plan: `run`.
 * @param onlyWeeks true if no more is asked for than the figures of the seasons as they are: then nothing is tried, nor run without an
 * absence
 */
export function runStudy(
  plan: Plan,
  seed: number,
  seasons: number,
  onlyWeeks = false,
): Study<WorkloadTallies, RunResult> {
  const trials = onlyWeeks ? 0 : trialSeasons(seasons);
  const jobs = [{ plan, seasons, trials }];
  const present = presentJobs(onlyWeeks ? [] : [plan], seasons, jobs.length);
  const workload = { seed, sections: sectionsFor(seasons), jobs: [...jobs, ...present.jobs] };
  return ofSeasons(workload, (gathered) =>
    concludeRun(plan, seed, { seasons, trials }, gathered, gathered.trials(0), present.tallies(gathered, 0)),
  );
}
