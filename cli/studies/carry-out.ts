/** Carries out a study: on this thread or on several, with a bar on a terminal, until it is done or somebody stops it. */

import { alone, type Crew } from '../../sim/seasons/crew.js';
import { plantsOf, type Workload } from '../../sim/seasons/workload.js';
import type { Shard, Study } from '../../sim/study/study.js';
import { Progress } from '../io/progress.js';
import { Interrupt, processors } from '../io/streams.js';

/** Below this many plants, about 2 s of one thread, starting others costs more than they bring. */
const ALONE_PLANTS = 4e6;

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
  const interrupt = new Interrupt();
  const crew = await crewFor(study.workload, shard, workers);
  interrupt.onStop = () => void crew.close();
  const progress = new Progress(interrupt);
  try {
    const yielded = await study.carryOut(crew, shard, (done, all) => progress.step(done, all));
    return { yielded, stopped: interrupt.stopped };
  } finally {
    progress.clear();
    interrupt.release();
    await crew.close();
  }
}

async function crewFor(workload: Workload, shard: Shard, workers: number | undefined): Promise<Crew> {
  const threads = workers ?? (plantsIn(workload) / shard.n < ALONE_PLANTS ? 1 : processors());
  if (threads === 1) return alone(workload);
  const { pool } = await import('../../sim/seasons/pool.js');
  return pool(workload, threads);
}

function plantsIn(workload: Workload): number {
  return workload.jobs.reduce((sum, { plan, seasons }) => sum + plantsOf(plan) * seasons, 0);
}
