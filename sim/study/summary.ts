/** Tallies turned into the result of a study: plain data, as it is printed with --json. */

import type { ExactMoments } from '../engine/exact-moments.js';
import { isoOfDay } from '../models/dates.js';
import { COUNTS, type CountName, type HoleState, STATE_COUNT, STATES } from '../models/ledger.js';
import { holesOf, type Plan, seasonDays } from '../models/plan.js';
import type { Estimate } from '../seasons/sections.js';
import { firstPickDay, firstRunningWeek, type Tallies } from '../seasons/tallies.js';
import { sectionsFor } from '../seasons/workload.js';
import type { WorkloadTallies } from '../seasons/workload-tallies.js';
import { type Bottleneck, findBottleneck, trialSeasons } from './bottleneck.js';
import { type FigureName, figureOf, ofFigures, samplesFrom } from './figures.js';
import { ofSeasons, type Study } from './study.js';

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
}

/** Picks a week once the line runs: all weeks from `from` on, of all seasons, taken together. */
export interface RunningWeeks {
  /** ISO date of the first of these weeks. */
  readonly from: string;
  readonly weeks: number;
  readonly mean: number;
  /** A usual week: half of all weeks bring at least this. A whole number. */
  readonly p50: number;
  /** A bad week: 1 in 10 brings this or less. A whole number. */
  readonly p10: number;
  /** Share of weeks without a pick. */
  readonly without_pick: number;
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

export interface RunResult {
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

type RunFigures = Readonly<Record<FigureName<'whole'>, Estimate | null>>;

/**
 * @param partial true if the study was stopped before all seasons were run
 * @param sections of `tallies` (see sections.ts); without them figures have no intervals
 */
export function summarise(
  plan: Plan,
  seed: number,
  tallies: Tallies,
  limits: Bottleneck | null,
  partial: boolean,
  sections: readonly (Tallies | null)[] = [],
): RunResult {
  const from = firstRunningWeek(tallies);
  const samples = samplesFrom(plan, from, tallies, sections);
  const figures = ofFigures('whole', (figure) => figureOf(samples, figure));
  return {
    title: plan.title,
    start: plan.start,
    seed,
    seasons: tallies.seasons,
    partial,
    attended: attendedOf(plan),
    counts: record(COUNTS, (i) => meanOf(tallies.counts, i)),
    running: from < plan.weeks ? runningWeeks(plan, from, figures) : null,
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
      figures: ofFigures('stage', (figure) => figureOf(samples, figure, s)),
    })),
    figures,
  };
}

function record<Name extends string>(names: readonly Name[], value: (i: number) => Mean): Record<Name, Mean> {
  return Object.fromEntries(names.map((name, i) => [name, value(i)])) as Record<Name, Mean>;
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

/** @param figures of a line that runs from week `from` on, so that those of its weeks are there */
function runningWeeks(plan: Plan, from: number, figures: RunFigures): RunningWeeks {
  return {
    from: isoOfDay(plan.start, from * 7),
    weeks: plan.weeks - from,
    mean: figures.heads_a_week!.mean,
    p50: figures.usual_week!.mean,
    p10: figures.bad_week!.mean,
    without_pick: figures.weeks_without_pick!.mean,
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

/** The study of one plan: `run`. */
export function runStudy(plan: Plan, seed: number, seasons: number): Study<WorkloadTallies, RunResult> {
  const trials = trialSeasons(seasons);
  const workload = { seed, sections: sectionsFor(seasons), jobs: [{ plan, seasons, trials }] };
  return ofSeasons(workload, (gathered) => {
    const tallies = gathered.whole(0);
    if (tallies.seasons === 0) return null;
    // Trials of fewer seasons than planned would say less than they seem to.
    const tried = gathered.trials(0);
    const limits = tried.length === trials ? findBottleneck(plan, tried, firstRunningWeek(tallies)) : null;
    return summarise(plan, seed, tallies, limits, tallies.seasons < seasons, gathered.sectionsOf(0));
  });
}
