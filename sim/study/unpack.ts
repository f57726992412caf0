/** What was packed of seasons, read again: from files that somebody may have cut, changed or made by hand. */

import * as z from 'zod';
import { ExactMoments } from '../engine/exact-moments.js';
import { COUNTS, STATE_COUNT } from '../models/ledger.js';
import { looksInTank } from '../models/physical/line-matter.js';
import { type Plan, seasonDays } from '../models/plan.js';
import { TANK_COLUMNS, TANK_EVERY } from '../models/takes.js';
import { type TakesData, TakesTallies } from '../seasons/takes-tallies.js';
import type { TallyData } from '../seasons/tallies.js';
import { changesTried, type Job, mostPicks, type SeasonRange, type Workload } from '../seasons/workload.js';
import { type JobData, type TrialSeason, WorkloadTallies } from '../seasons/workload-tallies.js';

/** Seasons of a workload, joined from all of its parts, in any order. @param parts without faults */
export function joinedTallies(workload: Workload, parts: readonly unknown[]): WorkloadTallies {
  const all = new WorkloadTallies(workload);
  for (const part of parts) all.merge(new WorkloadTallies(workload, part as JobData[]));
  return all;
}

/**
 * What is wrong with what a part holds of the seasons of a workload.
 * @param range the seasons that it must hold, each once
 * @returns as `dataFault`
 */
export function talliesFault(workload: Workload, part: unknown, range: SeasonRange): string | null {
  const jobs = workload.jobs.map((job) => jobForm(job, workload.sections, range));
  return dataFault(z.tuple(jobs as [z.ZodType<JobData>]), part);
}

/** @returns in a few words, the first place at which data are not of a form; null if they are */
export function dataFault(form: z.ZodType, data: unknown): string | null {
  const read = form.safeParse(data);
  if (read.success) return null;
  const path = read.error.issues[0]!.path.join('.');
  if (path !== '') return `its data are not whole at ${path}`;
  return Array.isArray(data) ? 'its data are not as many as they must be' : 'its data are not there';
}

/** A form for each key and for no other: one that is asked for and never written would make every part a damaged one. */
export type Form<Data> = Record<keyof Data, z.ZodType>;

/** A count: a whole number that is summed without rounding. */
export const count = z.int().min(0);

/** What `Histogram.toData` gives. @param most the largest number that can have been counted: memory goes by it */
export function histogramForm(most: number): z.ZodType<number[]> {
  return z.array(count).refine(([lowest = 0, ...seen]) => lowest + seen.length - 1 <= most);
}

/** How many numbers a histogram has counted. */
export function totalOf([, ...seen]: readonly number[]): number {
  return seen.reduce((sum, times) => sum + times, 0);
}

/** What `ExactMoments.toData` gives of so many rows. */
function momentsForm(width: number, rows: number): z.ZodType<number[]> {
  return z.array(z.int()).refine((data) => data[0] === rows && ExactMoments.canBe(width, data));
}

/** What `TakesTallies.toData` gives; absent where the plan tells of nothing but holes. @param looks seasons in which the tank was looked at */
function takesForm(plan: Plan, seasons: number, looks: number): z.ZodType<TakesData | undefined> {
  const takes = TakesTallies.of(plan);
  if (takes === null) return z.undefined().optional();
  return z.object({
    row: momentsForm(takes.columns.width, seasons),
    tank: momentsForm(TANK_COLUMNS.count, looks),
  } satisfies Form<TakesData>);
}

function jobForm(job: Job, sections: number, { from, to }: SeasonRange): z.ZodType<JobData> {
  const { plan } = job;
  const end = Math.min(to, job.seasons);
  /** Seasons before `season` that are dealt to a section (see workload.ts). */
  const dealtBefore = (season: number, section: number): number => Math.ceil((season - section) / sections);
  const dealt = Array.from({ length: sections }, (_, s) =>
    Math.max(0, dealtBefore(end, s) - dealtBefore(from, s)),
  );
  const tried = Array.from({ length: Math.max(0, Math.min(end, job.trials) - from) }, (_, i) => from + i);
  const most = mostPicks(plan);
  /** Of these, seasons in which the tank is looked at from visit to visit. */
  const dealtLooks = dealt.map((_, s) => {
    let looks = 0;
    for (let season = from; season < end; season++) {
      if (season % sections === s && season % TANK_EVERY === 0) looks++;
    }
    return looks;
  });
  const tally = (there: number, s: number): z.ZodType<TallyData | null> => {
    if (there === 0) return z.null();
    const week = histogramForm(most).refine((data) => totalOf(data) === there);
    return z.object({
      seasons: z.literal(there),
      counts: momentsForm(COUNTS.length, there),
      ledger: momentsForm(plan.stages.length * STATE_COUNT, there),
      weeks: z.array(week).length(plan.weeks),
      first: histogramForm(seasonDays(plan)).refine((data) => totalOf(data) <= there),
      discards: z.array(count).length(plan.stages.length * plan.weeks),
      takes: takesForm(plan, there, looksInTank(plan) ? dealtLooks[s]! : 0),
    } satisfies Form<TallyData>);
  };
  const changes = changesTried(job).length;
  const trial = (season: number): z.ZodType<TrialSeason> =>
    z.object({
      season: z.literal(season),
      picks: z.array(z.array(count).length(plan.weeks)).length(1 + changes),
    } satisfies Form<TrialSeason>);
  const forms = {
    sections: z.tuple(dealt.map(tally) as [z.ZodType<TallyData | null>]),
    trials: z.tuple(tried.map(trial) as [z.ZodType<TrialSeason>]),
  } satisfies Form<JobData>;
  return z.object(forms);
}
