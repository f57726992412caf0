/** Those who run the seasons of a workload: this thread alone (season-runner.ts), or several others (thread-pool.ts). */

import type { Chunk } from './workload.js';
import type { WorkloadTallies } from './workload-tallies.js';

/** Hears how many more seasons were run. null: go on at once; false in a promise: stop. */
export type PauseAfterRuns = (runs: number) => Promise<boolean> | null;

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
