/** Carries out a study: on this thread or on several, with a bar on a terminal, until it is done or somebody stops it. */

import { SeasonRunner } from '../../sim/seasons/season-runner.js';
import { threadPool } from '../../sim/seasons/thread-pool.js';
import { plantsOf, type Workload } from '../../sim/seasons/workload.js';
import type { Shard, Study } from '../../sim/study/study.js';
import { onThreads } from '../inputs/threads.js';

export interface CarriedOut<Collected> {
  readonly collected: Collected;
  /** Somebody stopped it before it was done. */
  readonly stopped: boolean;
}

/** @param workers threads that were asked for; by the size of the work if undefined */
export async function carryOut<Collected>(
  study: Study<Collected, unknown>,
  shard: Shard,
  workers: number | undefined,
): Promise<CarriedOut<Collected>> {
  const { result, stopped } = await onThreads(workers, async ({ threadsFor, keep, step }) => {
    const threads = threadsFor(plantsIn(study.workload) / shard.n);
    const pool = keep(
      threads === 1 ? new SeasonRunner(study.workload) : await threadPool(study.workload, threads),
    );
    return study.carryOut(pool, shard, step);
  });
  return { collected: result, stopped };
}

function plantsIn(workload: Workload): number {
  return workload.jobs.reduce((sum, { plan, seasons }) => sum + plantsOf(plan) * seasons, 0);
}
