/** Several studies of the same seasons carried out as one: what they have in common is run once. */

import type { Job } from '../seasons/workload.js';
import type { WorkloadTallies } from '../seasons/workload-tallies.js';
import { ofSeasons, type Study } from './study.js';

/** The result of each study by its name; null where not even one season was run. */
export type JointResults<Results> = { readonly [Name in keyof Results]: Results[Name] | null };

/**
 * @param studies by name, of one seed and of seasons dealt to as many sections
 * @returns a study whose result is those of the single ones, each to the last digit what it would be by itself
 * @throws RangeError if the studies do not have the same luck
 */
export function jointly<Results extends object>(
  studies: {
    readonly [Name in keyof Results]: Study<WorkloadTallies, Results[Name]>;
  },
): Study<WorkloadTallies, JointResults<Results>> {
  const all = Object.entries<Study<WorkloadTallies, unknown>>(studies);
  const { seed, sections } = all[0]![1].workload;
  if (all.some(([, { workload }]) => workload.seed !== seed || workload.sections !== sections)) {
    throw new RangeError('studies of other luck cannot be carried out as one');
  }
  const jobs: Job[] = [];
  const known = new Map<string, number>();
  // Seasons that are tried beside a job do not touch what the job itself gives, so the most that any study wants will do.
  const places = all.map(([, { workload }]) =>
    workload.jobs.map((job) => {
      const key = JSON.stringify([job.plan, job.seasons]);
      const at = known.get(key) ?? jobs.push(job) - 1;
      known.set(key, at);
      if (job.trials > jobs[at]!.trials) jobs[at] = job;
      return at;
    }),
  );
  return ofSeasons({ seed, sections, jobs }, (gathered) => {
    const results = all.map(([name, { workload, conclude }], i) => [
      name,
      conclude(gathered.part(workload, places[i]!)),
    ]);
    return Object.fromEntries(results) as JointResults<Results>;
  });
}
