/** Seeds that refilled crops will be sown on each visit of the next weeks. */

import { type Forecast, forecastOf } from './forecast.js';
import type { Watch } from './watcher.js';

/** A sowing that is looked at. */
export interface RefillDay {
  /** Day of the visit [d from the start]. */
  readonly day: number;
  /** Place of the crop in the plan. */
  readonly crop: number;
}

/** Sees the seeds of each of the sowings. */
export function watchSown(sowings: readonly RefillDay[]): Watch<readonly number[]> {
  const places = new Map(sowings.map(({ day, crop }, place) => [`${crop} ${day}`, place]));
  const seeds = sowings.map(() => 0);
  return {
    onEvent(t, event, _plant, crop) {
      const place = event === 'sow' ? places.get(`${crop} ${t}`) : undefined;
      if (place !== undefined) seeds[place]!++;
    },
    end: () => seeds,
  };
}

/** The seeds of each of the sowings, of all futures. */
export function refilled(sowings: readonly RefillDay[], seen: readonly (readonly number[])[]): Forecast[] {
  return sowings.map((_, place) => forecastOf(seen.map((seeds) => seeds[place]!)));
}
