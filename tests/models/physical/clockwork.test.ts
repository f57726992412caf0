/**
 * Two whole seasons without luck, plant by plant, against worked values: they come from a program that shares no code with this
 * one, and were held against a third way of computing (adaptive solvers, leaf temperatures solved for, a tank of salt and litres).
 */

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

/** Tolerances of the worked values, relative. */
const EXACT = 1e-9;
/** Leaf integrals of the worked values are quadratures. */
const WATER = 1e-6;

describe('one crop', () => {
  const clockwork = oneCrop();
  const { plan, physical, courses, ratios } = clockwork;
  const taken = takenBy(recordSeason(plan, 1), physical, courses);

  test('efficiency and masses', () => {
    expectNear(courses[0]!.efficiencies[0]!, 1.89052765986, EXACT);
    expect(courses[0]!.regrowEfficiency).toBeNull();
    expectNear(courses[0]!.readyG[0]!, 0.303904761929, EXACT);
    expectNear(courses[0]!.readyG[1]!, 120, EXACT);
    expect(ratios).toEqual([[1, 1]]);
  });

  test('light by part', () => {
    expectAllNear(
      taken.light[0]!,
      {
        dead: 0,
        unattended: 0.1728,
        blocked: 0.5184,
        held: 0,
        cleaning: 0,
        filling: 0,
        unsupplied: 1.6632,
        untended: 0,
        leaves: 0.133926457514,
        gaps: 4.76927354249,
      },
      EXACT,
    );
    expectAllNear(
      taken.light[1]!,
      {
        dead: 0,
        unattended: 3.456,
        blocked: 0,
        held: 0,
        cleaning: 4.608,
        filling: 57.6,
        unsupplied: 20.16,
        untended: 2.304,
        leaves: 30.6407345149,
        gaps: 74.7672654851,
      },
      EXACT,
    );
    expectNear(taken.kwh[0]!, 0.8064, EXACT);
    expectNear(taken.kwh[1]!, 26.88, EXACT);
  });

  test('water', () => {
    const { litres } = taken;
    expectNear(litres.transpiredInStage[0]!, 0.0431022696051, WATER);
    expectNear(litres.transpiredInStage[1]!, 7.20025965147, WATER);
    expectAllNear(litres, { transpired: 7.24336192108, used: 8.34878852911 }, WATER);
    expectAllNear(
      litres,
      { picked: 0.98064516129, standing: 0.125199446742, thrownOut: 0, seeds: 0.000418 },
      EXACT,
    );
  });

  test('tank', () => {
    const { tank } = taken;
    expectAllNear(
      { toppedUp: tank.toppedUpL, lowest: tank.lowestL, most: tank.mostBetweenVisitsL },
      { toppedUp: 8.12575117002, lowest: 49.3181233409, most: 0.681876659096 },
      WATER,
    );
    expect(tank.drainedL).toBe(0);
    expect(tank.ecGoodDays(seasonDays(plan))).toBe(42);
  });

  test('minutes', () => {
    expectAllNear(
      taken.minutes,
      {
        sow: 1.46666666667,
        move: 2.66666666667,
        pick: 5.33333333333,
        clear: 0,
        clean: 2.66666666667,
        visit: 420,
        tank: 210,
      },
      EXACT,
    );
    expectNear(hoursOf(taken.minutes), 10.7022222222, EXACT);
  });

  test('money', () => {
    const { costs, total, revenue, picked, pickedKg } = taken.money;
    expectAllNear(
      costs,
      { light: 8.30592, seed: 0.66, plug: 1.76, labour: 160.533333333, capital: 2.688, other: 8.4 },
      EXACT,
    );
    expectAllNear(
      { water: costs.water!, nutrients: costs.nutrients!, total },
      { water: 0.0325030046801, nutrients: 0.0812575117002, total: 182.46101385 },
      WATER,
    );
    expect(revenue).toBe(20);
    expect(picked).toEqual([8]);
    expectNear(pickedKg, 0.96, EXACT);
    expectNear(total / 8, 22.8076267312, WATER);
  });

  test('what the plan can come to', () => {
    expectAllNear(
      standing(clockwork),
      {
        litres_a_day: 0.423284983,
        days_to_low: 94.498982,
        'dry_hours.on.least': 1.05830332,
        'dry_hours.on.most': 5.12082251,
        'dry_hours.off.least': 2.06644449,
        'dry_hours.off.most': 9.99892494,
        'idle_hole_day.tray': 0.00472,
        'idle_hole_day.channel': 0.028,
      },
      WATER,
    );
  });
});

describe('two crops', () => {
  const clockwork = twoCrops();
  const { plan, physical, courses, ratios } = clockwork;
  const taken = takenBy(recordSeason(plan, 1), physical, courses);
  /** Days are no whole ticks of the clock here, so all figures have this tolerance. */
  const TICKS = 1e-6;

  test('efficiencies, masses and days', () => {
    const [lettuce, basil] = courses;
    expectNear(lettuce!.efficiencies[0]!, 1.88500752562, EXACT);
    expectNear(lettuce!.readyG[0]!, 0.318160494946, EXACT);
    expectNear(lettuce!.readyG[1]!, 120, EXACT);
    expectNear(basil!.efficiencies[0]!, 1.79099972716, EXACT);
    expectNear(basil!.regrowEfficiency!, 0.716637687485, EXACT);
    expectNear(basil!.readyG[0]!, 0.31516033073, EXACT);
    expectNear(basil!.readyG[1]!, 50, EXACT);
    expectNear(ratios[0]![0]!, 0.892762122, EXACT);
    expectNear(ratios[0]![1]!, 0.908768569, EXACT);
    expect(ratios[1]![0]).toBe(1);
    expectNear(ratios[1]![1]!, 0.907118246, EXACT);
  });

  test('light by part', () => {
    expectAllNear(
      taken.light[0]!,
      {
        dead: 0,
        unattended: 2.61520231829,
        blocked: 4.7952,
        held: 0,
        cleaning: 0,
        filling: 0,
        unsupplied: 5.28768,
        untended: 0,
        leaves: 0.407784964428,
        gaps: 13.0214927173,
      },
      TICKS,
    );
    expectAllNear(
      taken.light[1]!,
      {
        dead: 0,
        unattended: 43.1695919162,
        blocked: 0,
        held: 0,
        cleaning: 39.26016,
        filling: 74.0492614537,
        unsupplied: 50.1929646366,
        untended: 16.2096139097,
        leaves: 117.640132849,
        gaps: 216.861955235,
      },
      TICKS,
    );
    expectNear(taken.kwh[0]!, 18.144, EXACT);
    expectNear(taken.kwh[1]!, 70.058280543, EXACT);
  });

  test('water', () => {
    const { litres } = taken;
    expectNear(litres.transpiredInStage[0]!, 0.334142703182, TICKS);
    expectNear(litres.transpiredInStage[1]!, 47.9886251382, TICKS);
    expectAllNear(
      litres,
      {
        transpired: 48.3227678414,
        picked: 2.38064516129,
        standing: 0.666946431408,
        thrownOut: 0.0791397849462,
        seeds: 0.00082025,
        used: 51.448678969,
      },
      TICKS,
    );
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
      { toppedUp: 221.206893199, drained: 174.457557367, lowest: 41.3006568626, most: 4.69934313737 },
      TICKS,
    );
    expect(tank.ecGoodDays(seasonDays(plan))).toBe(49);
  });

  test('minutes', () => {
    expectAllNear(
      taken.minutes,
      { sow: 2.93333333333, move: 5.5, pick: 18, clear: 0, clean: 7, visit: 240, tank: 120 },
      EXACT,
    );
    expectNear(hoursOf(taken.minutes), 6.55722222222, EXACT);
  });

  test('money', () => {
    const { costs, total, revenue, picked, pickedKg } = taken.money;
    expectAllNear(
      { ...costs, total },
      {
        light: 26.4606841629,
        water: 0.884827572794,
        nutrients: 2.21206893199,
        seed: 1.23,
        plug: 3.52,
        labour: 98.3583333333,
        capital: 8.064,
        other: 16.8,
        total: 157.529914001,
      },
      TICKS,
    );
    expectNear(revenue!, 51.5, EXACT);
    expectNear(revenue! - total, -106.029914001, TICKS);
    expect(picked).toEqual([17, 10]);
    expectNear(pickedKg, 2.34, EXACT);
  });

  test('what the plan can come to', () => {
    expectAllNear(
      standing(clockwork),
      {
        litres_a_day: 1.33742206,
        days_to_low: 23.1789209,
        'dry_hours.on.least': 0.743315522,
        'dry_hours.on.most': 3.59668801,
        'dry_hours.off.least': 1.86892412,
        'dry_hours.off.most': 9.04318122,
        'idle_hole_day.tray': 0.0094,
        'idle_hole_day.channel': 0.024850678733,
      },
      WATER,
    );
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
    expectAllNear(top!, { kg: 10.7522580645, floodedKg: 22.2722580645, marginKg: 17.7277419355 }, EXACT);
    expectAllNear(seedlings, { kg: 3.83410529671, floodedKg: 12.3841052967 }, EXACT);
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
