/** Any plan with everything told of what it takes. */

import type { PhysicalPlan } from '../../sim/models/physical/plan.js';
import type { Plan } from '../../sim/models/plan.js';
import { oneCrop } from './clockwork.js';

const HEADS_G = [150, 40, 80];
const AREAS_CM2 = [20, 80, 150, 400];

/** The plan with masses and areas, and everything else told. */
export function toldOf(bare: Plan): { plan: Plan; physical: PhysicalPlan } {
  const plan: Plan = {
    ...bare,
    stages: bare.stages.map((stage, s) => ({ ...stage, holeAreaCm2: AREAS_CM2[s]! })),
    crops: bare.crops.map((crop, c) => ({ ...crop, headG: HEADS_G[c]! })),
  };
  const { physical } = oneCrop();
  return {
    plan,
    physical: {
      ...physical,
      stages: plan.stages.map((_, s) => ({
        lamps: { ppfd: 150 + 50 * s, hours: 16, power: { kind: 'made', efficacy: 2.5, reaches: 1 } },
        channelSize: null,
      })),
      crops: plan.crops.map(({ stages, regrow }) => ({
        ...physical.crops[0]!,
        regrowDays: regrow?.time.days ?? null,
        stages: stages.map(({ time: { days } }) => ({ days, readyG: null, daysAt: null })),
      })),
      prices: { ...physical.prices!, crops: plan.crops.map(() => physical.prices!.crops[0]!) },
    },
  };
}
