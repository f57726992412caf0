/** Errors of what a plan takes: from the sections, and of the tank from the seasons in which it was looked at. */

import { expect, test } from 'vitest';
import type { CropCourse } from '../../../sim/models/physical/crop-course.js';
import type { Plan } from '../../../sim/models/plan.js';
import { TANK_EVERY } from '../../../sim/models/takes.js';
import { gather } from '../../../sim/seasons/gather.js';
import { samplesOf } from '../../../sim/study/figures.js';
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
