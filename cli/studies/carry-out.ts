/** Carries out a study: on this thread or on several, with a bar on a terminal, until it is done or somebody stops it. */

import { alone } from '../../sim/seasons/crew.js';
import { pool } from '../../sim/seasons/pool.js';
import { plantsOf, type Workload } from '../../sim/seasons/workload.js';
import type { Shard, Study } from '../../sim/study/study.js';
import { onThreads } from '../inputs/threads.js';

export interface CarriedOut<Yield> {
  readonly yielded: Yield;
  /** Somebody stopped it before it was done. */
  readonly stopped: boolean;
}

/** @param workers threads that were asked for; by the size of the work if undefined */
export async function carryOut<Yield>(
  study: Study<Yield, unknown>,
  shard: Shard,
  workers: number | undefined,
): Promise<CarriedOut<Yield>> {
  const { result, stopped } = await onThreads(workers, async ({ threadsFor, keep, step }) => {
    const threads = threadsFor(plantsIn(study.workload) / shard.n);
    const crew = keep(threads === 1 ? alone(study.workload) : await pool(study.workload, threads));
    return study.carryOut(crew, shard, step);
  });
  return { yielded: result, stopped };
}

function plantsIn(workload: Workload): number {
  return workload.jobs.reduce((sum, { plan, seasons }) => sum + plantsOf(plan) * seasons, 0);
}
