/** What was packed of seasons, read again: from files that somebody may have cut or changed. */

import * as z from 'zod';
import { failure, type Result, success } from '../models/result.js';
import { Tallies, type TallyData } from '../seasons/tallies.js';
import type { Job, Workload } from '../seasons/workload.js';
import { type JobData, type TrialSeason, WorkloadTallies } from '../seasons/workload-tallies.js';

/**
 * Seasons of a workload, joined from all of its parts, in any order.
 * @returns as a fault, in a few words, what is wrong with the first part that is damaged
 */
export function joinedTallies(
  workload: Workload,
  parts: readonly unknown[],
): Result<WorkloadTallies, string> {
  const all = new WorkloadTallies(workload);
  const form = z.tuple(workload.jobs.map((job) => jobForm(job, workload.sections)) as [z.ZodType<JobData>]);
  for (const part of parts) {
    const read = unpacked(form, part);
    if (!read.ok) return read;
    all.merge(new WorkloadTallies(workload, read.value));
  }
  return success(all);
}

/**
 * Data of a form, as they are: a copy would have its keys in another order, and be told so.
 * @returns as a fault, in a few words, the first place at which they are of another
 */
export function unpacked<Data>(form: z.ZodType<Data>, data: unknown): Result<Data, string> {
  const read = form.safeParse(data);
  if (read.success) return success(data as Data);
  const path = read.error.issues[0]!.path.join('.');
  return failure([path === '' ? 'its data are not there' : `its data are not whole at ${path}`]);
}

/** A form for each key and for no other: one that is asked for and never written would make every part a damaged one. */
export type Form<Data> = Record<keyof Data, z.ZodType>;

const numbers = z.array(z.number());

function jobForm({ plan }: Job, sections: number): z.ZodType<JobData> {
  const { counts, ledger, discards } = new Tallies(plan).toData();
  const tally = z.object({
    seasons: z.int().min(1),
    counts: numbers.length(counts.length),
    ledger: numbers.length(ledger.length),
    weeks: z.array(numbers).length(plan.weeks),
    first: numbers,
    discards: numbers.length(discards.length),
  } satisfies Form<TallyData>);
  const trial = z.object({
    season: z.int().min(0),
    picks: z.array(numbers.length(plan.weeks)),
  } satisfies Form<TrialSeason>);
  return z.object({ sections: z.array(tally.nullable()).length(sections), trials: z.array(trial) });
}
