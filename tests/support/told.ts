/** What tests tell of a line beyond its holes, where any figures do: minutes, prices and a tank. */

import type {
  CropPrices,
  LampPlan,
  PhysicalPlan,
  Prices,
  TankPlan,
  WorkTimes,
} from '../../sim/models/physical/plan.js';

/** Lamps over the stages of a line of one crop, and nothing else told but what is given. */
export function lampsAndNoMore(
  stages: readonly (LampPlan | null)[],
  more: Partial<Pick<PhysicalPlan, 'work' | 'prices'>>,
): PhysicalPlan {
  return {
    stages: stages.map((lamps) => ({ lamps, channelSize: null })),
    crops: [null],
    climate: null,
    waterScale: 1,
    waterMetered: false,
    tank: null,
    tiers: [],
    work: null,
    prices: null,
    ...more,
  };
}

/** 250 umol for 16 h a day. */
export const LAMPS: LampPlan = {
  ppfd: 250,
  hours: 16,
  power: { kind: 'made', efficacy: 2.5, reaches: 0.8 },
};

export const WORK: WorkTimes = {
  sowS: 4,
  moveS: 10,
  pickS: 40,
  clearS: 10,
  cleanS: 20,
  visitMin: 10,
  tankMin: 5,
};

/** @param crops prices of seeds and heads, one entry a crop */
export function pricesWith(crops: readonly CropPrices[]): Prices {
  return {
    kwh: 0.3,
    waterM3: 4,
    nutrientsL: 0.01,
    plug: 0.08,
    hour: 15,
    holeDay: 0.004,
    otherDay: 0.2,
    crops,
  };
}

/** Never changed; top-up as strong as the filling. */
export const TANK: TankPlan = {
  litres: 60,
  fullL: 50,
  lowL: 10,
  ec: 1.5,
  topUpEc: 1.5,
  uptakeEc: 1.8,
  pipesL: 0,
  heldMl: 20,
  changeDays: null,
};
