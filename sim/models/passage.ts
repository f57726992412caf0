/** How a crop passes through the stages of a line, by the mean times of the plan, waits for visits included. */

import type { CropPlan, Plan } from './plan.js';
import { meanStay } from './refill.js';
import * as route from './route.js';

/** Mean figures of one crop in one stage. */
export interface Passage {
  /** From sowing to entry [d]. */
  readonly lead: number;
  /** Days that a plant takes up a hole, cleaning not included [d]. */
  readonly stay: number;
  /** Chance that a seed comes into the stage. */
  readonly reaches: number;
}

/** @returns one entry a stage */
export function passagesOf(plan: Plan, crop: CropPlan): Passage[] {
  let lead = 0;
  let reaches = 1;
  return crop.stages.map(({ loss }, s) => {
    const stay = meanStay(plan, crop, s);
    const passage = { lead, stay, reaches };
    lead += stay;
    reaches *= (1 - loss) * (s === route.first(crop) ? crop.germination : 1);
    return passage;
  });
}
