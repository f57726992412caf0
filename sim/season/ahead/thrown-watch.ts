/** When plants of the coming sowings are thrown away as ready for too long. */

import type { Watch } from './watcher.js';

/** Which sowings are looked at. Plain data. */
export interface SowingsLook {
  /** First day [d from the start]. */
  readonly from: number;
  /** Day behind the last one. */
  readonly to: number;
}

/** Seeds of a crop that are sown on a day of one future. */
export interface SownSeen {
  readonly day: number;
  /** Place of the crop in the plan. */
  readonly crop: number;
  readonly seeds: number;
  /** One entry for each plant that is thrown away [d from the start]. */
  readonly thrownOn: readonly number[];
}

export function watchThrown({ from, to }: SowingsLook): Watch<readonly SownSeen[]> {
  const sowings = new Map<string, { day: number; crop: number; seeds: number; thrownOn: number[] }>();
  const ofPlant = new Map<number, string>();
  return {
    onEvent(t, event, plant, crop) {
      if (event === 'sow' && t >= from && t < to) {
        const key = `${t} ${crop}`;
        const sowing = sowings.get(key) ?? { day: t, crop, seeds: 0, thrownOn: [] };
        sowings.set(key, sowing);
        sowing.seeds++;
        ofPlant.set(plant, key);
      } else if (event === 'discard') sowings.get(ofPlant.get(plant) ?? '')?.thrownOn.push(t);
    },
    end: () => [...sowings.values()],
  };
}
