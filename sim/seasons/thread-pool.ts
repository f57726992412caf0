/** Several threads that run the seasons of a workload. */

import { largest } from '../engine/lists.js';
import { holesOfLine } from '../models/plan.js';
import { startThreads, threadsThatFit } from './threads.js';
import type { PauseAfterRuns, WorkerPool } from './worker-pool.js';
import { type Chunk, runsOf, type Workload } from './workload.js';
import { type JobData, WorkloadTallies } from './workload-tallies.js';

/** What a thread is asked to do. */
export type Task =
  | { readonly kind: 'tally'; readonly chunk: Chunk }
  | { readonly kind: 'weeks'; readonly job: number; readonly first: number; readonly count: number };

/**
 * @param threads at least 1; of very large lines fewer are started
 * @param worker as in `startThreads`
 */
export async function threadPool(workload: Workload, threads: number, worker?: URL): Promise<WorkerPool> {
  const holes = largest(workload.jobs.map(({ plan }) => holesOfLine(plan)));
  const { hands, send, close } = await startThreads(threadsThatFit(threads, holes), workload, worker);
  const goOn = async (step: PauseAfterRuns | undefined, runs: number): Promise<boolean> =>
    (await step?.(runs)) ?? true;
  return {
    concurrency: hands,
    tally: async (chunk, step) => {
      const data = await send<JobData[]>({ kind: 'tally', chunk } satisfies Task);
      if (data === null || !(await goOn(step, runsOf(workload, chunk)))) return null;
      return new WorkloadTallies(workload, data);
    },
    weeks: async (job, first, count, step) => {
      const weeks = await send<Float64Array>({ kind: 'weeks', job, first, count } satisfies Task);
      return weeks === null || !(await goOn(step, count)) ? null : weeks;
    },
    close,
  };
}
