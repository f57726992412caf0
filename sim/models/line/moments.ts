/** Lets an observer hear what a season has taken by some moments of it. */

import type { EventObserver } from './observer.js';
import type { LineState } from './state.js';

export class Moments {
  /** The next one that is to be told [d]; Infinity behind the last. */
  next: number;
  readonly #line: LineState;
  readonly #observer: EventObserver;
  readonly #at: readonly number[];
  #told = 0;

  /** @param line that books what it takes @param observer who hears of it */
  constructor(line: LineState, observer: EventObserver) {
    this.#line = line;
    this.#observer = observer;
    this.#at = observer.takesAt ?? [];
    this.next = this.#at[0] ?? Infinity;
  }

  /** Tell of all moments up to `now`, at which nothing has happened yet [d]. */
  tellUntil(now: number): void {
    const { stays, stages, holes, queue, books } = this.#line;
    for (; this.next <= now; this.next = this.#at[++this.#told] ?? Infinity) {
      this.#observer.onTakes?.(this.next, stays!.takenBy(stages, holes, queue, books.counts, this.next));
    }
  }
}
