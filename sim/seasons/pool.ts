/** Several threads that run the seasons of a workload. What they give does not depend on how many they are. */

import type { Crew } from './crew.js';
import { Gathered, type JobData } from './gathered.js';
import type { Step } from './hand.js';
import { type Piece, runsOf, type Workload } from './workload.js';

/** What a thread is asked to do. */
export type Errand =
  | { readonly kind: 'tally'; readonly piece: Piece }
  | { readonly kind: 'weeks'; readonly job: number; readonly first: number; readonly count: number };

/** Pieces handed out per thread: while one is in work, the next is already there. */
const AHEAD = 2;

/**
 * @param threads at least 1
 * @param worker the built worker.js; beside this file in the package
 */
export async function pool(
  workload: Workload,
  threads: number,
  worker = new URL('./worker.js', import.meta.url),
): Promise<Crew> {
  // Loaded when it is needed: most calls of the program never are.
  const { Tinypool } = await import('tinypool');
  const threadsOf = new Tinypool({
    filename: worker.href,
    minThreads: threads,
    maxThreads: threads,
    workerData: workload,
    concurrentTasksPerWorker: 1,
  });
  let closed = false;

  /** @returns null if the threads were let go of before the errand was done */
  const send = async <Answer>(errand: Errand): Promise<Answer | null> => {
    try {
      return (await threadsOf.run(errand)) as Answer;
    } catch (error) {
      if (closed) return null;
      throw error;
    }
  };
  const goOn = async (step: Step | undefined, runs: number): Promise<boolean> => (await step?.(runs)) ?? true;

  return {
    hands: threads * AHEAD,
    tally: async (piece, step) => {
      const data = await send<JobData[]>({ kind: 'tally', piece });
      if (data === null || !(await goOn(step, runsOf(workload, piece)))) return null;
      return new Gathered(workload, data);
    },
    weeks: async (job, first, count, step) => {
      const weeks = await send<Float64Array>({ kind: 'weeks', job, first, count });
      return weeks === null || !(await goOn(step, count)) ? null : weeks;
    },
    close: async () => {
      closed = true;
      await threadsOf.destroy();
    },
  };
}
