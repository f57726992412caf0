/** How a study is carried out for a program that calls the library: options with their defaults, threads, and being stopped. */

import type { Plan } from '../models/plan.js';
import { defaultSeasons, MOST_SEASONS } from '../seasons/how-many.js';
import { threadPool } from '../seasons/thread-pool.js';
import { MOST_WORKERS } from '../seasons/threads.js';
import { singleThread, type WorkerPool } from '../seasons/worker-pool.js';
import type { Workload } from '../seasons/workload.js';
import { type Study, WHOLE } from '../study/study.js';

/** How a study is carried out. All of it may be left out. */
export interface StudyOptions {
  /** Seasons of each plan, 1 to 1 000 000. Left out: 200, fewer of a very large line. */
  readonly seasons?: number;
  /** Seed of the random streams, a whole number of at least 0: the same seed gives the same luck. Left out: the first plan's own. */
  readonly seed?: number;
  /** Threads, at least 1. Left out: 1. The result is the same to the last digit. */
  readonly workers?: number;
  /** Stops the study when it is aborted. The result is then of the seasons that were run, and says so (`partial`). */
  readonly signal?: AbortSignal;
  /** Hears now and then how many of how many seasons are run. */
  readonly onProgress?: (done: number, all: number) => void;
}

/** @throws RangeError if an option is out of range */
export function seasonsAndSeed(
  plans: readonly Plan[],
  options: StudyOptions,
): { readonly seasons: number; readonly seed: number } {
  const { seasons = Math.min(...plans.map(defaultSeasons)), seed = plans[0]!.seed } = options;
  return {
    seasons: whole('seasons', seasons, 1, MOST_SEASONS),
    seed: whole('seed', seed, 0, Number.MAX_SAFE_INTEGER),
  };
}

/** @throws RangeError unless `value` is a whole number within the limits */
export function whole(name: string, value: number, least: number, most: number): number {
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  throw new RangeError(`${name} must be a whole number from ${least} to ${most}: ${value}`);
}

/**
 * @throws RangeError if the number of threads is out of range; the signal's reason if there is nothing to conclude from yet
 * when it is aborted
 */
export async function carriedOut<Yield, Result>(
  study: Study<Yield, Result>,
  options: StudyOptions,
): Promise<Result> {
  const { workers = 1, signal } = options;
  const pool = await poolFor(study.workload, whole('workers', workers, 1, MOST_WORKERS));
  const letGo = (): void => void pool.close();
  signal?.addEventListener('abort', letGo, { once: true });
  try {
    signal?.throwIfAborted();
    const result = study.conclude(await study.carryOut(pool, WHOLE, pauseOf(options)));
    if (result !== null) return result;
    signal?.throwIfAborted();
    throw new Error('a study that nobody stopped has run no season');
  } finally {
    signal?.removeEventListener('abort', letGo);
    await pool.close();
  }
}

function poolFor(workload: Workload, workers: number): WorkerPool | Promise<WorkerPool> {
  return workers === 1 ? singleThread(workload) : threadPool(workload, workers);
}

/** Lets the caller's event loop take its turn after each season, if anybody there wants to know or to stop. */
export function pauseOf({ signal, onProgress }: Pick<StudyOptions, 'signal' | 'onProgress'>) {
  if (signal === undefined && onProgress === undefined) return undefined;
  return async (done: number, all: number): Promise<boolean> => {
    onProgress?.(done, all);
    await new Promise((resolve) => setImmediate(resolve));
    return signal?.aborted !== true;
  };
}
