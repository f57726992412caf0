/** How a study is carried out for a program that calls the library: options with their defaults, threads, and being stopped. */

import type { Plan } from '../models/plan.js';
import { defaultSeasons, MOST_SEASONS } from '../seasons/how-many.js';
import { SeasonRunner } from '../seasons/season-runner.js';
import { threadPool } from '../seasons/thread-pool.js';
import { MOST_WORKERS } from '../seasons/threads.js';
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
  const { workload } = study;
  const workers = workersOf(options);
  const pool = workers === 1 ? new SeasonRunner(workload) : await threadPool(workload, workers);
  return untilStopped(
    options.signal,
    () => pool.close(),
    async () => study.conclude(await study.carryOut(pool, WHOLE, pauseOf(options))),
  );
}

/** @throws RangeError if the number of threads is out of range */
export function workersOf({ workers = 1 }: Pick<StudyOptions, 'workers'>): number {
  return whole('workers', workers, 1, MOST_WORKERS);
}

/**
 * Do something with threads, which are let go of at its end, and at once when the signal comes.
 * @param letGo of the threads, as often as it is called
 * @param work gives null only if it was stopped
 * @throws the signal's reason if there is nothing to tell
 */
export async function untilStopped<Told>(
  signal: AbortSignal | undefined,
  letGo: () => Promise<void>,
  work: () => Promise<Told | null>,
): Promise<Told> {
  const stop = (): void => void letGo();
  signal?.addEventListener('abort', stop, { once: true });
  try {
    signal?.throwIfAborted();
    const told = await work();
    if (told !== null) return told;
    signal?.throwIfAborted();
    throw new Error('what nobody stopped has come to no end');
  } finally {
    signal?.removeEventListener('abort', stop);
    await letGo();
  }
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
