/** Heads that become ready, and picks, in each of the next weeks. */

import type { PlantEvent } from '../../models/line/line.js';
import { type Forecast, forecastOf } from './forecast.js';
import type { Watcher } from './watcher.js';

/** Of one future, one entry a week. */
export interface WeeksSeen {
  /** Heads that become ready to be picked; of plants with several cuts each cut. */
  readonly ready: readonly number[];
  readonly picked: readonly number[];
}

export interface WeekHeads {
  readonly ready: Forecast;
  readonly picked: Forecast;
}

export class WeeksWatch implements Watcher<WeeksSeen> {
  readonly #from: number;
  readonly #weeks: number;
  readonly #last: number;
  #ready: number[] = [];
  #picked: number[] = [];

  /**
   * @param from first day of the first week [d from the start]
   * @param last place of the last stage
   */
  constructor(from: number, weeks: number, last: number) {
    this.#from = from;
    this.#weeks = weeks;
    this.#last = last;
  }

  begin(): void {
    this.#ready = new Array<number>(this.#weeks).fill(0);
    this.#picked = new Array<number>(this.#weeks).fill(0);
  }

  onEvent(t: number, event: PlantEvent, _plant: number, _crop: number, stage: number): void {
    const picked = event === 'pick';
    if (t < this.#from || !(picked || (event === 'ripen' && stage === this.#last))) return;
    const week = Math.floor((t - this.#from) / 7);
    if (week >= this.#weeks) return;
    if (picked) this.#picked[week]!++;
    else this.#ready[week]!++;
  }

  end(): WeeksSeen {
    return { ready: this.#ready, picked: this.#picked };
  }
}

/** The weeks of all futures. @param seen at least one */
export function weekHeads(seen: readonly WeeksSeen[]): WeekHeads[] {
  return seen[0]!.ready.map((_, week) => ({
    ready: forecastOf(seen.map(({ ready }) => ready[week]!)),
    picked: forecastOf(seen.map(({ picked }) => picked[week]!)),
  }));
}

/** Picks in all weeks together, one entry a future. */
export function picksIn(seen: readonly WeeksSeen[]): number[] {
  return seen.map(({ picked }) => picked.reduce((sum, picks) => sum + picks, 0));
}
