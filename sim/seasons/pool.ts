/** Several threads that run the seasons of a workload. */

import type { Crew } from './crew.js';
import { Gathered, type JobData } from './gathered.js';
import type { Step } from './hand.js';
import { startThreads } from './threads.js';
import { type Piece, runsOf, type Workload } from './workload.js';

/** What a thread is asked to do. */
export type Errand =
  | { readonly kind: 'tally'; readonly piece: Piece }
  | { readonly kind: 'weeks'; readonly job: number; readonly first: number; readonly count: number };

/**
 * @param threads at least 1
 * @param worker as in `startThreads`
 */
export async function pool(workload: Workload, threads: number, worker?: URL): Promise<Crew> {
  const { hands, send, close } = await startThreads(threads, workload, worker);
  const goOn = async (step: Step | undefined, runs: number): Promise<boolean> => (await step?.(runs)) ?? true;
  return {
    hands,
    tally: async (piece, step) => {
      const data = await send<JobData[]>({ kind: 'tally', piece } satisfies Errand);
      if (data === null || !(await goOn(step, runsOf(workload, piece)))) return null;
      return new Gathered(workload, data);
    },
    weeks: async (job, first, count, step) => {
      const weeks = await send<Float64Array>({ kind: 'weeks', job, first, count } satisfies Errand);
      return weeks === null || !(await goOn(step, count)) ? null : weeks;
    },
    close,
  };
}
