/** When plants of the coming sowings are thrown away as ready for too long. */

import { SownInTurn } from './sown-in-turn.js';
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
  /** Days on which plants of it are thrown away, ascending [d from the start], and how many. */
  readonly thrownOn: readonly { readonly day: number; readonly plants: number }[];
}

interface Sowing extends SownSeen {
  seeds: number;
  readonly thrownOn: { day: number; plants: number }[];
}

export function watchThrown({ from, to }: SowingsLook): Watch<readonly SownSeen[]> {
  const sowings = new Map<string, Sowing>();
  const ofPlant = new SownInTurn<Sowing | null>();
  return {
    onEvent(t, event, plant, crop) {
      if (event === 'sow') {
        if (t < from || t >= to) {
          ofPlant.add(plant, null);
          return;
        }
        const key = `${t} ${crop}`;
        const sowing = sowings.get(key) ?? { day: t, crop, seeds: 0, thrownOn: [] };
        sowings.set(key, sowing);
        sowing.seeds++;
        ofPlant.add(plant, sowing);
      } else if (event === 'discard') {
        const thrown = ofPlant.of(plant)?.thrownOn;
        const last = thrown?.at(-1);
        if (last?.day === t) last.plants++;
        else thrown?.push({ day: t, plants: 1 });
      }
    },
    end: () => [...sowings.values()],
  };
}
