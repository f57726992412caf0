/** Several threads that do errands. What these give does not depend on how many threads there are. */

import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import type { MessagePort } from 'node:worker_threads';
import type { Limits } from '../models/limits.js';

export interface Threads {
  /** How many errands can be in work at the same time. */
  readonly hands: number;
  /**
   * @param errand plain data, or also ports, which are then listed as handed over
   * @returns null if the threads were let go of before the errand was done
   */
  send<Answer>(errand: unknown, handedOver?: MessagePort[]): Promise<Answer | null>;
  /** Let go of the threads. What is still in work is dropped. */
  close(): Promise<void>;
}

/** Threads that may be asked for. */
export const WORKERS: Limits = { least: 1, most: 256 };

/** Holes of all the lines together that are run at the same time, about 60 bytes each. */
const HOLES_AT_ONCE = 4_000_000;

/**
 * As many threads as are wanted, or fewer: each holds a line of its own, and all of them together are to stay below half a gigabyte.
 * @param wanted at least 1 @param holes of the largest line that each of them runs
 */
export function threadsThatFit(wanted: number, holes: number): number {
  return Math.max(1, Math.min(wanted, Math.floor(HOLES_AT_ONCE / holes)));
}

/** Errands handed out per thread: while one is in work, the next is already there. */
const AHEAD = 2;

/** The built worker.js: beside this file in the package. */
const WORKER = new URL('./worker.js', import.meta.url);

/** false where somebody has bundled the library without the file that threads run. */
export function threadsAreThere(worker = WORKER): boolean {
  try {
    createRequire(worker).resolve(fileURLToPath(worker));
    return true;
  } catch {
    return false;
  }
}

/**
 * @param threads at least 1
 * @param known plain data that each thread gets once, before all errands
 * @throws Error if the file that they run is not there
 */
export async function startThreads(
  threads: number,
  known: unknown = null,
  worker = WORKER,
): Promise<Threads> {
  if (!threadsAreThere(worker)) {
    throw new Error(
      `evensow runs threads from ${worker.href}, which is not there. Leave evensow out of your bundle, or put its dist/worker.js beside it; or ask for 1 worker.`,
    );
  }
  // Loaded when it is needed: most calls of the program never are.
  const { Tinypool } = await import('tinypool');
  const pool = new Tinypool({
    filename: worker.href,
    minThreads: threads,
    maxThreads: threads,
    workerData: known,
    concurrentTasksPerWorker: 1,
  });
  let closed = false;
  return {
    hands: threads * AHEAD,
    send: async <Answer>(errand: unknown, handedOver: MessagePort[] = []): Promise<Answer | null> => {
      try {
        return (await pool.run(errand, { transferList: handedOver })) as Answer;
      } catch (error) {
        if (closed) return null;
        throw error;
      }
    },
    close: async () => {
      closed = true;
      await pool.destroy();
    },
  };
}

/** By the file that they run: threads without work. They keep no process from ending. */
const idle = new Map<string, Threads>();

/**
 * One thread for errands that leave nothing behind in it: the one that was lent before, if it has been given back without work. Its code
 * is quick by then, for which a new thread takes a second.
 * @throws Error as `startThreads`
 */
export async function lentThread(worker = WORKER): Promise<Threads> {
  const { href } = worker;
  const before = idle.get(href);
  idle.delete(href);
  const thread = before ?? (await startThreads(1, null, worker));
  let inWork = 0;
  let failed = false;
  let closed = false;
  return {
    hands: thread.hands,
    send: async <Answer>(errand: unknown, handedOver?: MessagePort[]): Promise<Answer | null> => {
      if (closed) return null;
      inWork++;
      try {
        return await thread.send<Answer>(errand, handedOver);
      } catch (error) {
        failed = true;
        throw error;
      } finally {
        inWork--;
      }
    },
    close: async () => {
      if (closed) return;
      closed = true;
      if (inWork > 0 || failed || idle.has(href)) await thread.close();
      else idle.set(href, thread);
    },
  };
}

/**
 * Let all hands do one thing after another until there is nothing left to do.
 * @param hands how many things may be in work at the same time
 * @param next asked whenever a hand is free; undefined if there is no more to do
 * @param work does one; false: nobody begins another
 * @returns whether all was done
 */
export async function shareOut<Item>(
  hands: number,
  next: () => Item | undefined,
  work: (item: Item) => Promise<boolean>,
): Promise<boolean> {
  let stopped = false;
  const hand = async (): Promise<void> => {
    while (!stopped) {
      const item = next();
      if (item === undefined) return;
      if (!(await work(item))) stopped = true;
    }
  };
  await Promise.all(Array.from({ length: hands }, hand));
  return !stopped;
}
