/** Work that takes a while: with a bar on a terminal and, if it is large, on several threads, until it is done or somebody stops it. */

import { availableParallelism } from 'node:os';
import { Progress } from '../io/progress.js';
import { Interrupt } from '../io/streams.js';

/** Below this many plants, about 2 s of one thread, starting others costs more than they bring. */
const ALONE_PLANTS = 4e6;
/** A season of more plants, a tenth of a second, is not run on the thread that is to hear who stops it. */
const BRIEF_PLANTS = 2e5;

/** What does work on other threads. */
interface Closable {
  close(): Promise<void>;
}

export interface Hold {
  /**
   * Threads to use: those asked for, else by the size of the work; 0: this one does it alone.
   * @param plants that the work brings about
   * @param atOnce plants between two steps of the work
   */
  threadsFor(plants: number, atOnce: number): number;
  /** Let these go when the work is done or somebody stops it. */
  keep<Threads extends Closable>(threads: Threads): Threads;
  /** To be told after each step of the work. @returns null to go on at once, or a promise of whether to go on */
  readonly step: (done: number, all: number) => Promise<boolean> | null;
}

/**
 * @param workers threads that were asked for; by the size of the work if undefined
 * @returns what the work gave, and whether somebody stopped it
 */
export async function onThreads<Result>(
  workers: number | undefined,
  work: (hold: Hold) => Promise<Result>,
): Promise<{ result: Result; stopped: boolean }> {
  const interrupt = new Interrupt();
  const progress = new Progress(interrupt);
  let kept: Closable | null = null;
  interrupt.onStop = () => void kept?.close();
  try {
    const result = await work({
      threadsFor: (plants, atOnce) => {
        const threads = workers ?? (plants < ALONE_PLANTS ? 1 : availableParallelism());
        return threads === 1 && atOnce <= BRIEF_PLANTS ? 0 : threads;
      },
      keep: (one) => {
        kept = one;
        if (interrupt.stopped) void one.close();
        return one;
      },
      step: (done, all) => progress.step(done, all),
    });
    return { result, stopped: interrupt.stopped };
  } finally {
    progress.clear();
    interrupt.release();
    await (kept as Closable | null)?.close();
  }
}
