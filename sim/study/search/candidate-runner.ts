/** Runs seasons of the candidates of a search for those who say which; stops when it is told to. */

import type { Pause } from '../../seasons/gather.js';
import { shareOut } from '../../seasons/threads.js';
import type { WorkerPool } from '../../seasons/worker-pool.js';

export class CandidateRunner {
  readonly #pool: WorkerPool;
  readonly #pause: Pause | undefined;
  /** Seasons that there probably are in all, for the bar. */
  all = 0;
  /** Seasons that were run. */
  done = 0;
  /** true once somebody has said to stop. */
  stopped = false;

  constructor(pool: WorkerPool, pause: Pause | undefined) {
    this.#pool = pool;
    this.#pause = pause;
  }

  /**
   * Run seasons of a candidate.
   * @param place of the candidate, which is also the number of its job
   * @returns picks of each week, season after season; null if stopped
   */
  async run(place: number, first: number, count: number): Promise<Float64Array | null> {
    const picks = await this.#pool.weeks(place, first, count, (runs) => {
      this.done += runs;
      return this.#pause?.(this.done, Math.max(this.done, this.all)) ?? null;
    });
    if (picks === null) this.stopped = true;
    return picks;
  }

  /**
   * Do a task for each that `next` gives, as many at the same time as there are hands.
   * @param next asked whenever a hand is free; undefined if there is no more to do
   */
  async inParallel<Item>(next: () => Item | undefined, task: (item: Item) => Promise<void>): Promise<void> {
    if (this.stopped) return;
    await shareOut(this.#pool.concurrency, next, async (item) => {
      await task(item);
      return !this.stopped;
    });
  }
}
