/** Two whole seasons without luck, plant by plant, against worked values (tests/support/worked-values.ts). */

import { describe, expect, test } from 'vitest';
import { kwhPerHoleDay } from '../../../sim/models/physical/light.js';
import { tierLoad } from '../../../sim/models/physical/load.js';
import { idleHoleDay } from '../../../sim/models/physical/money.js';
import { drainBackL, hoursToWilting, spillL } from '../../../sim/models/physical/pump-stop.js';
import { daysToLow } from '../../../sim/models/physical/tank.js';
import { everyHoleGrowingL, readyPlants, thirstyStages } from '../../../sim/models/physical/thirst.js';
import { wholeFreshG } from '../../../sim/models/physical/tissue.js';
import { hoursOf } from '../../../sim/models/physical/work.js';
import { holesOf, seasonDays } from '../../../sim/models/plan.js';
import { type Clockwork, oneCrop, twoCrops } from '../../support/clockwork.js';
import { expectAllNear, expectNear } from '../../support/near.js';
import { takenBy } from '../../support/plant-by-plant.js';
import { recordSeason } from '../../support/stays.js';
import { ONE_CROP, TWO_CROPS } from '../../support/worked-values.js';

/** Figures of what a plan can come to, whatever a season brings. */
function standing({ plan, physical, courses }: Clockwork): Record<string, number> {
  const thirsty = thirstyStages(plan, physical, courses)!;
  const litresADay = everyHoleGrowingL(thirsty, physical.waterScale);
  const tank = physical.tank!;
  const dry = (['on', 'off'] as const).flatMap((lamps) => {
    const { least, most } = hoursToWilting(tank.heldMl, readyPlants(thirsty, lamps, physical.waterScale))!;
    return [[`dry_hours.${lamps}.least`, least] as const, [`dry_hours.${lamps}.most`, most] as const];
  });
  const idle = plan.stages.map((stage, s) => {
    const kwh = kwhPerHoleDay(physical.stages[s]!.lamps!, stage.holeAreaCm2! / 1e4, holesOf(stage));
    return [`idle_hole_day.${stage.name}`, idleHoleDay(physical.prices!, kwh)!] as const;
  });
  return {
    litres_a_day: litresADay,
    days_to_low: daysToLow(tank, litresADay),
    ...Object.fromEntries([...dry, ...idle]),
  };
}

/** The worked values of the same. */
function standingOf(
  { litresADay, daysToLow: days, dryHours, idleHoleDay: idle }: typeof ONE_CROP | typeof TWO_CROPS,
  stages: readonly string[],
): Record<string, number> {
  return {
    litres_a_day: litresADay,
    days_to_low: days,
    'dry_hours.on.least': dryHours.on[0],
    'dry_hours.on.most': dryHours.on[1],
    'dry_hours.off.least': dryHours.off[0],
    'dry_hours.off.most': dryHours.off[1],
    ...Object.fromEntries(stages.map((stage, s) => [`idle_hole_day.${stage}`, idle[s]!])),
  };
}

/** Tolerances of the worked values, relative. */
const EXACT = 1e-9;
/** Leaf integrals of the worked values are quadratures. */
const WATER = 1e-6;

describe('one crop', () => {
  const known = ONE_CROP;
  const clockwork = oneCrop();
  const { plan, physical, courses, ratios } = clockwork;
  const taken = takenBy(recordSeason(plan, 1), physical, courses);

  test('efficiency and masses', () => {
    expectNear(courses[0]!.efficiencies[0]!, known.efficiency, EXACT);
    expect(courses[0]!.regrowEfficiency).toBeNull();
    expectNear(courses[0]!.readyG[0]!, known.readyG[0], EXACT);
    expectNear(courses[0]!.readyG[1]!, known.readyG[1], EXACT);
    expect(ratios).toEqual([[1, 1]]);
  });

  test('light by part', () => {
    expectAllNear(taken.light[0]!, known.light[0], EXACT);
    expectAllNear(taken.light[1]!, known.light[1], EXACT);
    expectNear(taken.kwh[0]!, known.kwh[0], EXACT);
    expectNear(taken.kwh[1]!, known.kwh[1], EXACT);
  });

  test('water', () => {
    const { litres } = taken;
    expectNear(litres.transpiredInStage[0]!, known.transpiredInStage[0], WATER);
    expectNear(litres.transpiredInStage[1]!, known.transpiredInStage[1], WATER);
    expectAllNear(litres, known.litres, WATER);
    expectAllNear(litres, known.litresInPlants, EXACT);
  });

  test('tank', () => {
    const { tank } = taken;
    expectAllNear(
      {
        toppedUp: tank.toppedUpL,
        drained: tank.drainedL,
        lowest: tank.lowestL,
        most: tank.mostBetweenVisitsL,
      },
      known.tank,
      WATER,
    );
    expect(tank.ecGoodDays(seasonDays(plan))).toBe(known.ecGoodDays);
  });

  test('minutes', () => {
    expectAllNear(taken.minutes, known.minutes, EXACT);
    expectNear(hoursOf(taken.minutes), known.hours, EXACT);
  });

  test('money', () => {
    const { costs, total, revenue, picked, pickedKg } = taken.money;
    expectAllNear(costs, known.costs, EXACT);
    expectAllNear({ water: costs.water!, nutrients: costs.nutrients!, total }, known.costsByLitres, WATER);
    expect(revenue).toBe(known.revenue);
    expect(picked).toEqual(known.picked);
    expectNear(pickedKg, known.pickedKg, EXACT);
    expectNear(total / 8, known.costAHead, WATER);
  });

  test('what the plan can come to', () => {
    expectAllNear(standing(clockwork), standingOf(known, ['tray', 'channel']), WATER);
  });
});

describe('two crops', () => {
  const known = TWO_CROPS;
  const clockwork = twoCrops();
  const { plan, physical, courses, ratios } = clockwork;
  const taken = takenBy(recordSeason(plan, 1), physical, courses);
  /** Days are no whole ticks of the clock here, so all figures have this tolerance. */
  const TICKS = 1e-6;

  test('efficiencies, masses and days', () => {
    const [lettuce, basil] = courses;
    expectNear(lettuce!.efficiencies[0]!, known.efficiencies[0], EXACT);
    expectNear(lettuce!.readyG[0]!, known.readyG[0][0], EXACT);
    expectNear(lettuce!.readyG[1]!, known.readyG[0][1], EXACT);
    expectNear(basil!.efficiencies[0]!, known.efficiencies[1], EXACT);
    expectNear(basil!.regrowEfficiency!, known.regrowEfficiency, EXACT);
    expectNear(basil!.readyG[0]!, known.readyG[1][0], EXACT);
    expectNear(basil!.readyG[1]!, known.readyG[1][1], EXACT);
    expectNear(ratios[0]![0]!, known.ratios[0][0], EXACT);
    expectNear(ratios[0]![1]!, known.ratios[0][1], EXACT);
    expect(ratios[1]![0]).toBe(1);
    expectNear(ratios[1]![1]!, known.ratios[1][1], EXACT);
  });

  test('light by part', () => {
    expectAllNear(taken.light[0]!, known.light[0], TICKS);
    expectAllNear(taken.light[1]!, known.light[1], TICKS);
    expectNear(taken.kwh[0]!, known.kwh[0], EXACT);
    expectNear(taken.kwh[1]!, known.kwh[1], EXACT);
  });

  test('water', () => {
    const { litres } = taken;
    expectNear(litres.transpiredInStage[0]!, known.transpiredInStage[0], TICKS);
    expectNear(litres.transpiredInStage[1]!, known.transpiredInStage[1], TICKS);
    expectAllNear(litres, known.litres, TICKS);
  });

  test('tank, changed on days 17, 35, 52 and 70', () => {
    const { tank } = taken;
    expectAllNear(
      {
        toppedUp: tank.toppedUpL,
        drained: tank.drainedL,
        lowest: tank.lowestL,
        most: tank.mostBetweenVisitsL,
      },
      known.tank,
      TICKS,
    );
    expect(tank.ecGoodDays(seasonDays(plan))).toBe(known.ecGoodDays);
  });

  test('minutes', () => {
    expectAllNear(taken.minutes, known.minutes, EXACT);
    expectNear(hoursOf(taken.minutes), known.hours, EXACT);
  });

  test('money', () => {
    const { costs, total, revenue, picked, pickedKg } = taken.money;
    expectAllNear({ ...costs, total }, known.costs, TICKS);
    expectNear(revenue!, known.revenue, EXACT);
    expectNear(revenue! - total, known.margin, TICKS);
    expect(picked).toEqual(known.picked);
    expectNear(pickedKg, known.pickedKg, EXACT);
  });

  test('what the plan can come to', () => {
    expectAllNear(standing(clockwork), standingOf(known, ['tray', 'channel']), WATER);
    const back = drainBackL(
      physical.tank!,
      plan.stages.map(({ channels }, s) => ({ channels, size: physical.stages[s]!.channelSize })),
    )!;
    expectNear(back, 4.17, EXACT);
    expect(spillL(physical.tank!, back)).toBe(0);
  });

  test('tiers', () => {
    const [top, seedlings] = physical.tiers.map((tier) => {
      const plants = courses.map(({ curves, dry }) => wholeFreshG(curves[tier.stage]!.toG, dry));
      const { holesPerChannel } = plan.stages[tier.stage]!;
      return tierLoad(tier, physical.stages[tier.stage]!.channelSize!, holesPerChannel, Math.max(...plants));
    });
    expectAllNear(top!, known.load.top, EXACT);
    expectAllNear(seedlings, known.load.seedlings, EXACT);
    expect(seedlings!.marginKg).toBeNull();
  });
});

describe.each([
  ['one crop', oneCrop],
  ['two crops', twoCrops],
])('%s: everything adds up', (_, make) => {
  const { plan, physical, courses } = make();
  const { light, litres, tank, money } = takenBy(recordSeason(plan, 1), physical, courses);

  test('the parts of a stage’s light', () => {
    for (const [s, stage] of plan.stages.entries()) {
      const { ppfd, hours } = physical.stages[s]!.lamps!;
      const all = holesOf(stage) * seasonDays(plan) * (stage.holeAreaCm2! / 1e4) * ppfd * hours * 0.0036;
      expectNear(
        Object.values(light[s]!).reduce((sum, mol) => sum + mol),
        all,
        1e-12,
      );
    }
  });

  test('water, tank and money', () => {
    const { transpired, picked, standing, thrownOut, seeds, used } = litres;
    expectNear(used, transpired + picked + standing + thrownOut - seeds, 1e-12);
    const change = tank.levelL - physical.tank!.fullL;
    expect(Math.abs(tank.toppedUpL - used - tank.drainedL - change)).toBeLessThan(1e-10);
    const parts = Object.values(money.costs).reduce((sum: number, part) => sum + part!, 0);
    expectNear(parts, money.total, 1e-12);
  });
});
