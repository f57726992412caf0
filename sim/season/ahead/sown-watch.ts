/** Seeds that refilled crops will be sown on each visit of the next weeks. */

import type { PlantEvent } from '../../models/line/line.js';
import { type Forecast, forecastOf } from './forecast.js';
import type { Watcher } from './watcher.js';

/** Which sowings are looked at. */
export interface SownLook {
  /** Places of the refilled crops in the plan. */
  readonly crops: readonly number[];
  /** Visits, ascending [d from the start]. */
  readonly visits: readonly number[];
}

export interface Refilled {
  /** Day of the visit [d from the start]. */
  readonly day: number;
  /** Place of the crop in the plan. */
  readonly crop: number;
  readonly seeds: Forecast;
}

/** Sees the seeds of each visit and crop, visit by visit. */
export class SownWatch implements Watcher<readonly number[]> {
  readonly #places = new Map<string, number>();
  #seeds: number[] = [];

  constructor(look: SownLook) {
    sowingsOf(look).forEach(({ day, crop }, place) => {
      this.#places.set(`${crop} ${day}`, place);
    });
  }

  begin(): void {
    this.#seeds = new Array<number>(this.#places.size).fill(0);
  }

  onEvent(t: number, event: PlantEvent, _plant: number, crop: number): void {
    if (event !== 'sow') return;
    const place = this.#places.get(`${crop} ${t}`);
    if (place !== undefined) this.#seeds[place]!++;
  }

  end(): readonly number[] {
    return this.#seeds;
  }
}

/** The sowings of all futures, visit by visit. */
export function refilled(look: SownLook, seen: readonly (readonly number[])[]): Refilled[] {
  return sowingsOf(look).map((sowing, place) => ({
    ...sowing,
    seeds: forecastOf(seen.map((seeds) => seeds[place]!)),
  }));
}

function sowingsOf({ crops, visits }: SownLook): { day: number; crop: number }[] {
  return visits.flatMap((day) => crops.map((crop) => ({ day, crop })));
}
