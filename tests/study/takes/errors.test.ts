/** Errors of what a plan takes: from the sections, and of the tank from the seasons in which it was looked at. */

import { describe, expect, test } from 'vitest';
import { studentQuantile } from '../../../sim/engine/student.js';
import type { CropCourse } from '../../../sim/models/physical/crop-course.js';
import type { Plan } from '../../../sim/models/plan.js';
import { TANK_EVERY } from '../../../sim/models/takes.js';
import { gather } from '../../../sim/seasons/gather.js';
import { differenceOf, figureOf } from '../../../sim/study/figures/estimates.js';
import { FIGURES } from '../../../sim/study/figures/figures.js';
import { samplesOf } from '../../../sim/study/figures/samples.js';
import { takesOf } from '../../../sim/study/takes/takes.js';
import { twoCrops } from '../../support/clockwork.js';
import { expectNear } from '../../support/near.js';
import { grow, time } from '../../support/plans.js';
import { takenBy } from '../../support/plant-by-plant.js';
import { recordSeason } from '../../support/stays.js';

const { plan: told, physical, courses } = twoCrops();
const bare: Plan = {
  ...told,
  crops: told.crops.map((crop) => ({
    ...crop,
    germination: 0.9,
    stages: crop.stages.map((growing) => grow(time(growing.time.days, 0.2), { loss: 0.05 })),
  })),
};
const plan: Plan = { ...bare, physical };
/** The tank is looked at in seasons 0, TANK_EVERY and twice that: one each in sections 0, 1 and 2. */
const LOOKS = 3;
const SEASONS = LOOKS * TANK_EVERY;

const seasonOf = (i: number) => takenBy(recordSeason(bare, 1, i), physical, courses as readonly CropCourse[]);

/** Mean and standard error of the mean of some numbers. */
function moments(values: readonly number[]): { mean: number; se: number } {
  const n = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / n;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, se: Math.sqrt(squares / (n - 1) / n) };
}

test('what is seen from visit to visit has mean and error of the seasons looked at, and litres bought have both errors', async () => {
  const gathered = await gather({ seed: 1, sections: 40, jobs: [{ plan, seasons: SEASONS, trials: 0 }] });
  const { all, sections } = samplesOf(gathered, 0, plan, 0);
  const { tank, water, money } = takesOf(all, sections);
  const looked = Array.from({ length: LOOKS }, (_, i) => seasonOf(i * TANK_EVERY).tank);
  const drained = moments(looked.map(({ drainedL }) => drainedL));
  const lowest = moments(looked.map(({ lowestL }) => lowestL));
  const days = moments(looked.map((one) => one.ecGoodDays(7 * plan.weeks)!));
  for (const [found, known] of [
    [tank!.drained_l!, drained],
    [tank!.lowest_l!, lowest],
    [tank!.ec_good_days!, days],
  ] as const) {
    expectNear(found.mean, known.mean, 1e-9);
    expectNear(found.se!, known.se, 1e-7);
  }
  // Used by the last visit, of every season; from the sections it has the error of seasons dealt to 40 of them.
  const toppedUp = Array.from({ length: SEASONS }, (_, i) => seasonOf(i).tank);
  const used = moments(toppedUp.map(({ toppedUpL, drainedL }) => toppedUpL - drainedL));
  expectNear(tank!.topped_up_l!.mean, used.mean + drained.mean, 1e-9);
  expect(tank!.topped_up_l!.se!).toBeGreaterThan(drained.se);
  // 40 sections: the error of an error is 1/sqrt(2 x 39), a ninth; four of them.
  expectNear(Math.sqrt(tank!.topped_up_l!.se! ** 2 - drained.se ** 2), used.se, 0.45);
  // Water is bought by the cubic metre, and nothing else of its price varies.
  expectNear(money!.cost.water!.se!, (tank!.topped_up_l!.se! * physical.prices!.waterM3!) / 1000, 1e-9);
  expect(water!.used_l.se).not.toBeNull();
});

test('with one look there is no error of what was seen, nor of the litres bought where a tank is filled anew', async () => {
  const gathered = await gather({ seed: 1, sections: 20, jobs: [{ plan, seasons: 20, trials: 0 }] });
  const { all, sections } = samplesOf(gathered, 0, plan, 0);
  const { tank, water, money } = takesOf(all, sections);
  expect([tank!.lowest_l!.se, tank!.topped_up_l!.se, money!.cost.water!.se, money!.cost.total.se]).toEqual([
    null,
    null,
    null,
    null,
  ]);
  expect(water!.used_l.se).toBeGreaterThan(0);
  expect(money!.cost.labour!.se).toBeGreaterThan(0);
});

describe('the interval of what a head, or a season, costs', () => {
  const named = (of: string) => FIGURES.find(({ name }) => name === of)!;
  const cost = named('cost_a_head');
  const nothing = { kwh: null, nutrientsL: null, plug: null, hour: null, holeDay: null, otherDay: null };
  const unsold = physical.prices!.crops.map(() => ({
    seed: null,
    sale: { per: 'head', price: 0 } as const,
  }));
  /** Water is all that costs anything, and nothing is earned. */
  const thirsty: Plan = {
    ...plan,
    physical: { ...physical, prices: { ...nothing, waterM3: 1000, crops: unsold } },
  };
  const samplesIn = async (of: Plan, seasons: number) => {
    const gathered = await gather({ seed: 1, sections: 40, jobs: [{ plan: of, seasons, trials: 0 }] });
    return samplesOf(gathered, 0, of, 0);
  };

  test.each([
    ['cost_a_head', 'heads', 1],
    ['cost_a_season', 'seasons', 1],
    ['margin_a_season', 'seasons', -1],
  ] as const)(
    'holds both errors, of what was used and picked and of what was drained: %s',
    async (name, per, sign) => {
      const found = figureOf(await samplesIn(thirsty, SEASONS), named(name))!;
      // A litre costs 1. By hand, from every season by itself:
      const seasons = Array.from({ length: SEASONS }, (_, i) => {
        const { tank, money } = seasonOf(i);
        return {
          used: tank.toppedUpL - tank.drainedL,
          drained: tank.drainedL,
          heads: money.picked.reduce((sum, picks) => sum + picks),
          seasons: 1,
        };
      });
      const mean = (key: 'used' | typeof per, of: typeof seasons) => moments(of.map((one) => one[key])).mean;
      const drained = moments(seasons.filter((_, i) => i % TANK_EVERY === 0).map((one) => one.drained));
      const each = (of: typeof seasons) => (mean('used', of) + drained.mean) / mean(per, of);
      expectNear(found.mean, sign * each(seasons), 1e-9);
      let squares = 0;
      for (let s = 0; s < 40; s++) {
        const section = seasons.filter((_, i) => i % 40 === s);
        squares += section.length * (each(section) - each(seasons)) ** 2;
      }
      const luck = squares / (39 * SEASONS);
      const look = (drained.se / mean(per, seasons)) ** 2;
      // Neither is next to nothing, so that leaving one out shows.
      expect(look / luck).toBeGreaterThan(0.05);
      expect(look / luck).toBeLessThan(20);
      const freedom = Math.floor((luck + look) ** 2 / (luck ** 2 / 39 + look ** 2 / (LOOKS - 1)));
      const half = studentQuantile(0.975, freedom) * Math.sqrt(luck + look);
      expectNear(found.high! - found.mean, half, 1e-6);
      expectNear(found.mean - found.low!, half, 1e-6);
    },
  );

  test('is none with one look where a tank is filled anew, and as before where it never is', async () => {
    const { low, high } = figureOf(await samplesIn(thirsty, 20), cost)!;
    expect([low, high]).toEqual([null, null]);
    const tank = { ...physical.tank!, changeDays: null };
    const never: Plan = { ...thirsty, physical: { ...thirsty.physical!, tank } };
    const samples = await samplesIn(never, 20);
    const found = figureOf(samples, cost)!;
    const { money } = takesOf(samples.all, samples.sections);
    // 20 sections of a season each.
    expectNear(found.high! - found.mean, studentQuantile(0.975, 19) * money!.cost_per_head!.se!, 1e-9);
  });

  test('of a difference to the same plan is none', async () => {
    const samples = await samplesIn(thirsty, SEASONS);
    expect(differenceOf(samples, samples, cost)).toEqual({ mean: 0, low: 0, high: 0 });
  });
});
