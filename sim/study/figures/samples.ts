/** What the figures of a plan are computed from, out of what its seasons were tallied to. */

import type { Plan } from '../../models/plan.js';
import { picksFrom, type Tallies } from '../../seasons/tallies.js';
import type { WorkloadTallies } from '../../seasons/workload-tallies.js';
import type { Sample, Samples } from './figure.js';

/**
 * The samples of a plan.
 * @param from first week that counts
 * @param sections of `tallies`; without them figures have no intervals
 */
export function samplesFrom(
  plan: Plan,
  from: number,
  tallies: Tallies,
  sections: readonly (Tallies | null)[],
): Samples {
  const sample = (some: Tallies): Sample => ({
    plan,
    tallies: some,
    whole: tallies,
    picks: picksFrom(some, from),
  });
  return { all: sample(tallies), sections: sections.map((section) => section && sample(section)) };
}

/**
 * The samples of a job.
 * @param from first week that counts
 */
export function samplesOf(gathered: WorkloadTallies, job: number, plan: Plan, from: number): Samples {
  return samplesFrom(plan, from, gathered.whole(job), gathered.sectionsOf(job));
}
