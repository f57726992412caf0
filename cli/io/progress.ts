/** Keeps the program answering while seasons run: signals arrive, and a person at a terminal sees how far it is. */

import { setImmediate as breathe } from 'node:timers/promises';
import { progressLine } from '../render/progress-line.js';
import { hasWatcher, type Interrupt, showProgress } from './streams.js';

/** Milliseconds of work between two looks at the outside. */
const SLICE = 50;
/** Work shorter than this shows no progress [ms]. */
const PATIENCE = 700;

export class Progress {
  readonly #interrupt: Interrupt;
  readonly #watched = hasWatcher();
  readonly #began = performance.now();
  #looked = performance.now();
  #shown = false;

  constructor(interrupt: Interrupt) {
    this.#interrupt = interrupt;
  }

  /**
   * Call after each step of the work.
   * @param done seasons run
   * @param all seasons in all
   * @returns null to go on at once, or a promise of whether to go on
   */
  step(done: number, all: number): Promise<boolean> | null {
    const time = performance.now();
    if (time - this.#looked < SLICE && !this.#interrupt.stopped) return null;
    this.#looked = time;
    if (this.#watched && time - this.#began > PATIENCE) {
      const left = done > 0 ? ((time - this.#began) / done) * (all - done) : Number.POSITIVE_INFINITY;
      showProgress(progressLine(done, all, left));
      this.#shown = true;
    }
    // The event loop takes its turn, so that signals arrive.
    return breathe().then(() => !this.#interrupt.stopped);
  }

  /** Remove what was shown. */
  clear(): void {
    if (this.#shown) showProgress('');
    this.#shown = false;
  }
}
