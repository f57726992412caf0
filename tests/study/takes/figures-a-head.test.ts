/** What a head takes, as `compare` tells and orders by it, against every plant of the same seasons by itself. */

import { describe, expect, test } from 'vitest';
import type { CropCourse } from '../../../sim/models/physical/crop-course.js';
import { hoursOf } from '../../../sim/models/physical/work.js';
import type { Plan } from '../../../sim/models/plan.js';
import { gather } from '../../../sim/seasons/gather.js';
import { compareStudy } from '../../../sim/study/compare.js';
import { FIGURES, figureOf, samplesOf } from '../../../sim/study/figures.js';
import { oneCrop } from '../../support/clockwork.js';
import { expectNear } from '../../support/near.js';
import { grow, time } from '../../support/plans.js';
import { takenBy } from '../../support/plant-by-plant.js';
import { recordSeason } from '../../support/stays.js';

const { plan: told, physical, courses } = oneCrop();
const bare: Plan = {
  ...told,
  weeks: 10,
  crops: told.crops.map((crop) => ({
    ...crop,
    germination: 0.9,
    stages: crop.stages.map((growing) => grow(time(growing.time.days, 0.15), { loss: 0.05, keeps: 6 })),
  })),
};
const plan: Plan = { ...bare, physical };
const SEASONS = 6;

const FROM_SEASONS: Readonly<Record<string, (taken: ReturnType<typeof takenBy>) => number>> = {
  kwh_a_head: ({ kwh }) => kwh[0]! + kwh[1]!,
  litres_a_head: ({ litres }) => litres.used,
  minutes_a_head: ({ minutes }) => 60 * hoursOf(minutes),
  cost_a_head: ({ money }) => money.total,
};

describe('figures that not every plan has', () => {
  const figures = FIGURES.filter(({ isToldOf }) => isToldOf !== undefined);

  test('are those of light, water, work and money', () => {
    expect(figures.map(({ name }) => name)).toEqual(Object.keys(FROM_SEASONS));
    for (const { isToldOf } of figures) expect([isToldOf!(bare), isToldOf!(plan)]).toEqual([false, true]);
  });

  test.each(figures.map((figure) => [figure.name, figure] as const))(
    '%s is what its seasons say',
    async (name, figure) => {
      const gathered = await gather({
        seed: 1,
        sections: SEASONS,
        jobs: [{ plan, seasons: SEASONS, trials: 0 }],
      });
      const samples = samplesOf(gathered, 0, plan, 0);
      const taken = Array.from({ length: SEASONS }, (_, i) =>
        takenBy(recordSeason(bare, 1, i), physical, courses as readonly CropCourse[]),
      );
      const heads = taken.reduce((sum, { money }) => sum + money.picked[0]!, 0);
      const all = taken.reduce((sum, season) => sum + FROM_SEASONS[name]!(season), 0);
      const { mean, low, high } = figureOf(samples, figure)!;
      expectNear(mean, all / heads, 1e-9, name);
      expect(low).toBeLessThan(mean);
      expect(high).toBeGreaterThan(mean);
    },
  );
});

test('plans can be ordered by what a head costs, the cheapest first', async () => {
  const dear: Plan = { ...plan, physical: { ...physical, prices: { ...physical.prices!, hour: 30 } } };
  const study = compareStudy(
    [
      { name: 'dear', plan: dear },
      { name: 'cheap', plan },
    ],
    1,
    4,
    'cost_a_head',
  );
  const result = study.conclude(await gather(study.workload))!;
  expect(result.plans.map(({ name }) => name)).toEqual(['cheap', 'dear']);
});
