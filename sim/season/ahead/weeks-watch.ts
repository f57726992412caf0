/** Heads that become ready, and picks, in each of the next weeks. */

import type { Deed } from '../../models/line.js';
import type { Watcher } from './futures.js';
import { type Range, rangeOf } from './range.js';

export interface WeekHeads {
  /** Heads that become ready to be picked; of plants with several cuts each cut. */
  readonly ready: Range;
  readonly picked: Range;
}

export class WeeksWatch implements Watcher {
  /** Picks in all weeks together, one entry a future. */
  readonly totals: number[] = [];
  readonly #from: number;
  readonly #weeks: number;
  readonly #last: number;
  /** One entry a week and future. */
  readonly #ready: number[][];
  readonly #picked: number[][];
  #readyNow: number[] = [];
  #pickedNow: number[] = [];

  /**
   * @param from first day of the first week [d from the start]
   * @param last place of the last stage
   */
  constructor(from: number, weeks: number, last: number) {
    this.#from = from;
    this.#weeks = weeks;
    this.#last = last;
    this.#ready = Array.from({ length: weeks }, () => []);
    this.#picked = Array.from({ length: weeks }, () => []);
  }

  begin(): void {
    this.#readyNow = new Array<number>(this.#weeks).fill(0);
    this.#pickedNow = new Array<number>(this.#weeks).fill(0);
  }

  note(t: number, deed: Deed, _plant: number, _crop: number, stage: number): void {
    const picked = deed === 'pick';
    if (t < this.#from || !(picked || (deed === 'ripen' && stage === this.#last))) return;
    const week = Math.floor((t - this.#from) / 7);
    if (week >= this.#weeks) return;
    if (picked) this.#pickedNow[week]!++;
    else this.#readyNow[week]!++;
  }

  end(): void {
    for (let week = 0; week < this.#weeks; week++) {
      this.#ready[week]!.push(this.#readyNow[week]!);
      this.#picked[week]!.push(this.#pickedNow[week]!);
    }
    this.totals.push(this.#pickedNow.reduce((sum, picks) => sum + picks, 0));
  }

  /** The weeks, once all futures are over. */
  weeks(): WeekHeads[] {
    return this.#ready.map((ready, week) => ({
      ready: rangeOf(ready),
      picked: rangeOf(this.#picked[week]!),
    }));
  }
}
