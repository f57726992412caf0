/** Those who run the seasons of a workload: this thread alone, or several others (thread-pool.ts). */

import { type PauseAfterRuns, SeasonRunner } from './season-runner.js';
import type { Chunk, Workload } from './workload.js';
import type { WorkloadTallies } from './workload-tallies.js';

export interface WorkerPool {
  /** How many chunks can be in work at the same time. */
  readonly concurrency: number;
  /**
   * Run and tally a chunk.
   * @param step asked after each season where that is possible
   * @returns null if stopped before the chunk was done
   */
  tally(chunk: Chunk, step?: PauseAfterRuns): Promise<WorkloadTallies | null>;
  /**
   * Run seasons `first` to before `first + count` of a job.
   * @returns picks, week w of the i-th season at i x weeks + w; null if stopped
   */
  weeks(job: number, first: number, count: number, step?: PauseAfterRuns): Promise<Float64Array | null>;
  /** Let go of the threads. What is still in work is dropped. */
  close(): Promise<void>;
}

/** Everything on this thread, chunk after chunk. */
export function singleThread(workload: Workload): WorkerPool {
  const runner = new SeasonRunner(workload);
  return {
    concurrency: 1,
    tally: (chunk, step) => runner.tally(chunk, step),
    weeks: (job, first, count, step) => runner.weeks(job, first, count, step),
    close: async () => {},
  };
}
