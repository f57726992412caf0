/** Loads, minutes and money: worked values, published ones, and what is left out where nothing is told. */

import { describe, expect, test } from 'vitest';
import { isNarrow, tierLoad } from '../../../sim/models/physical/load.js';
import {
  type Amounts,
  costsOf,
  idleHoleDay,
  revenueOf,
  totalCost,
} from '../../../sim/models/physical/money.js';
import type { TierPlan } from '../../../sim/models/physical/plan.js';
import { wholeDryG, wholeFreshG } from '../../../sim/models/physical/tissue.js';
import { hoursOf, workMinutes } from '../../../sim/models/physical/work.js';
import { expectNear } from '../../support/near.js';
import { pricesWith, WORK } from '../../support/told.js';

describe('a tier', () => {
  const tier: TierPlan = {
    name: 'top',
    stage: 0,
    channels: 4,
    ratedKg: null,
    lampsKg: 6,
    otherKg: 0,
    plugG: 30,
  };
  const size = { lengthCm: 120, widthCm: 10, heightCm: 5, filmMm: 2, kg: 2 };
  const head = wholeFreshG(wholeDryG(150, 0.05), 0.05);

  test('of four channels with nine heads of 150 g each', () => {
    const load = tierLoad(tier, size, 9, head);
    expectNear(load.kg, 21.8464516, 1e-8);
    expectNear(load.floodedKg, 44.8864516, 1e-8);
    expect(load.marginKg).toBeNull();
  });

  test.each([
    [60, false],
    [56.2, false],
    [56, true],
    [45, true],
    [44, false],
  ])('rated for %s kg: the margin is narrow but there: %s', (ratedKg, narrow) => {
    const { marginKg } = tierLoad({ ...tier, ratedKg }, size, 9, head);
    expectNear(marginKg!, ratedKg - 44.8864516129, 1e-6);
    expect(isNarrow(marginKg!, ratedKg)).toBe(narrow);
  });
});

describe('work', () => {
  const none = { sown: 0, moved: 0, picked: 0, cleared: 0, cleaned: 0, visits: 0 };

  test('each deed takes its time', () => {
    const deeds = { sown: 15, moved: 12, picked: 9, cleared: 6, cleaned: 3, visits: 2 };
    const minutes = workMinutes(WORK, deeds);
    expect(minutes).toEqual({ sow: 1, move: 2, pick: 6, clear: 1, clean: 1, visit: 20, tank: 10 });
    expectNear(hoursOf(minutes), 41 / 60, 1e-12);
  });

  test('1 316 111 cuttings at 5.77 s each take the published 2109 h (HortScience 53:8, 2018, abstract seen)', () => {
    const hours = hoursOf(workMinutes({ ...WORK, moveS: 5.77 }, { ...none, moved: 1_316_111 }));
    // 5.77 s is rounded to a hundredth.
    expectNear(hours, 2109, 0.005 / 5.77);
  });
});

const PRICES = pricesWith([
  { seed: 0.03, sale: { per: 'head', price: 2.5 } },
  { seed: 0.02, sale: { per: 'kg', price: 30 } },
]);
const AMOUNTS: Amounts = {
  kwh: 100,
  litres: 250,
  sown: [10, 20],
  picked: [8, 10],
  hours: 4,
  holes: 24,
  days: 84,
};

describe('money', () => {
  test('each part is its amount times its price, and the total their sum', () => {
    const costs = costsOf(PRICES, AMOUNTS);
    const known = {
      light: 30,
      water: 1,
      nutrients: 2.5,
      seed: 0.7,
      plug: 2.4,
      labour: 60,
      capital: 8.064,
      other: 16.8,
    };
    for (const [part, cost] of Object.entries(known))
      expectNear(costs[part as keyof typeof costs]!, cost, 1e-12, part);
    expectNear(totalCost(costs), 121.464, 1e-12);
  });

  test('a grower who tells of lamps only gets what the lamps cost', () => {
    const none = { waterM3: null, nutrientsL: null, plug: null, hour: null, holeDay: null, otherDay: null };
    const crops = PRICES.crops.map(() => ({ seed: null, sale: null }));
    const costs = costsOf({ ...PRICES, ...none, crops }, { ...AMOUNTS, litres: null, hours: null });
    expect(costs).toEqual({
      light: 30,
      water: null,
      nutrients: null,
      seed: null,
      plug: null,
      labour: null,
      capital: null,
      other: null,
    });
    expect(totalCost(costs)).toBe(30);
  });

  test('picks earn by the head or by the kilogram; a crop whose price is not told earns nothing', () => {
    expectNear(revenueOf(PRICES, [8, 10], [120, 30])!, 8 * 2.5 + 0.3 * 30, 1e-12);
    const [lettuce] = PRICES.crops;
    expect(revenueOf({ ...PRICES, crops: [lettuce!, { seed: null, sale: null }] }, [8, 10], [120, 30])).toBe(
      20,
    );
    expect(revenueOf({ ...PRICES, crops: [{ seed: 1, sale: null }] }, [8], [120])).toBeNull();
  });

  test('an empty hole costs its light and its wear', () => {
    expectNear(idleHoleDay(PRICES, 0.08)!, 0.028, 1e-12);
    expect(idleHoleDay(PRICES, null)).toBe(0.004);
    expect(idleHoleDay({ ...PRICES, holeDay: null }, null)).toBeNull();
  });
});
