/** Keeps the program answering while seasons run: signals arrive, and a person at a terminal sees how far it is. */

import { breathe, hasWatcher, type Interrupt, now, showProgress } from './streams.js';

/** Milliseconds of work between two looks at the outside. */
const SLICE = 50;
/** Work shorter than this shows no progress [ms]. */
const PATIENCE = 700;

export class Progress {
  readonly #interrupt: Interrupt;
  readonly #watched = hasWatcher();
  readonly #began = now();
  #looked = now();
  #shown = false;

  constructor(interrupt: Interrupt) {
    this.#interrupt = interrupt;
  }

  /**
   * Call after each step of the work.
   * @param done steps done
   * @param all steps in all
   * @param what is being done, such as 'seasons'
   * @returns null to go on at once, or a promise of whether to go on
   */
  step(done: number, all: number, what: string): Promise<boolean> | null {
    const time = now();
    if (time - this.#looked < SLICE && !this.#interrupt.stopped) return null;
    this.#looked = time;
    if (this.#watched && time - this.#began > PATIENCE) {
      const left = ((time - this.#began) / done) * (all - done);
      showProgress(`${done} of ${all} ${what}, ${secondsText(left)} left`);
      this.#shown = true;
    }
    return breathe().then(() => !this.#interrupt.stopped);
  }

  /** Remove what was shown. */
  clear(): void {
    if (this.#shown) showProgress('');
    this.#shown = false;
  }
}

function secondsText(ms: number): string {
  const seconds = Math.ceil(ms / 1000);
  return seconds < 90 ? `about ${seconds} s` : `about ${Math.ceil(seconds / 60)} min`;
}
