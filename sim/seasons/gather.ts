/** Run the seasons of a workload with whoever is there, and bring together what they give. */

import { SeasonRunner } from './season-runner.js';
import { shareOut } from './threads.js';
import type { WorkerPool } from './worker-pool.js';
import { chunksOf, runsOf, type SeasonRange, seasonsOf, type Workload } from './workload.js';
import { WorkloadTallies } from './workload-tallies.js';

/**
 * Asked while seasons run. null: go on at once. A promise: wait for it (so that the caller's event loop gets its turn), and
 * stop early if it gives false.
 * @param done seasons run @param all seasons to run
 */
export type Pause = (done: number, all: number) => Promise<boolean> | null;

export interface GatherOptions {
  /** Who runs the seasons; this thread if left out. */
  readonly pool?: WorkerPool;
  /** Only these seasons; all if left out. */
  readonly range?: SeasonRange;
  readonly pause?: Pause;
}

/**
 * Run all seasons of a workload, or a range of them. The result does not depend on who runs them or in which order.
 * @returns fewer seasons than asked for only if `pause` said to stop; every job then has the same ones
 */
export async function gather(workload: Workload, options: GatherOptions = {}): Promise<WorkloadTallies> {
  const { pool = new SeasonRunner(workload), range = { from: 0, to: seasonsOf(workload) }, pause } = options;
  const chunks = chunksOf(workload, range);
  const all = chunks.reduce((sum, chunk) => sum + runsOf(workload, chunk), 0);
  const gathered = new WorkloadTallies(workload);
  let done = 0;
  let next = 0;
  const step = (runs: number): Promise<boolean> | null => {
    done += runs;
    return pause?.(done, all) ?? null;
  };

  await shareOut(
    pool.concurrency,
    () => chunks[next++],
    async (chunk) => {
      const part = await pool.tally(chunk, step);
      if (part !== null) gathered.merge(part);
      return part !== null;
    },
  );
  return gathered;
}
