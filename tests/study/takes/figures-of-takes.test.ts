/**
 * What a head and a season take, and how two plans differ in it, as `compare` tells and orders by it: against every plant of the same seasons
 * by itself.
 */

import { describe, expect, test } from 'vitest';
import type { CropCourse } from '../../../sim/models/physical/crop-course.js';
import { hoursOf } from '../../../sim/models/physical/work.js';
import type { Plan } from '../../../sim/models/plan.js';
import { gather } from '../../../sim/seasons/gather.js';
import { type Compared, compareStudy } from '../../../sim/study/compare.js';
import { figureOf } from '../../../sim/study/figures/estimates.js';
import { FIGURES } from '../../../sim/study/figures/figures.js';
import { samplesOf } from '../../../sim/study/figures/samples.js';
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

type Taken = ReturnType<typeof takenBy>;

/** What a season takes, to be divided by the heads of all seasons. */
const A_HEAD: Readonly<Record<string, (taken: Taken) => number>> = {
  kwh_a_head: ({ kwh }) => kwh[0]! + kwh[1]!,
  litres_a_head: ({ litres }) => litres.used,
  minutes_a_head: ({ minutes }) => 60 * hoursOf(minutes),
  cost_a_head: ({ money }) => money.total,
};
/** What a season takes or leaves, to be divided by the seasons. */
const A_SEASON: Readonly<Record<string, (taken: Taken) => number>> = {
  cost_a_season: ({ money }) => money.total,
  margin_a_season: ({ money }) => money.revenue! - money.total,
};

/** Seasons of a line, plant by plant. */
function takenIn(line: Plan): Taken[] {
  return Array.from({ length: SEASONS }, (_, i) =>
    takenBy(recordSeason({ ...line, physical: null }, 1, i), physical, courses as readonly CropCourse[]),
  );
}

/** A figure of some seasons. */
function worked(name: string, taken: readonly Taken[]): number {
  const sum = (of: (season: Taken) => number): number => taken.reduce((all, season) => all + of(season), 0);
  return name in A_HEAD
    ? sum(A_HEAD[name]!) / sum(({ money }) => money.picked[0]!)
    : sum(A_SEASON[name]!) / taken.length;
}

describe('figures that not every plan has', () => {
  const figures = FIGURES.filter(({ isToldOf }) => isToldOf !== undefined);
  const taken = takenIn(plan);

  test('are those of light, water, work and money', () => {
    expect(figures.map(({ name }) => name)).toEqual([...Object.keys(A_HEAD), ...Object.keys(A_SEASON)]);
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
      const { mean, low, high } = figureOf(samples, figure)!;
      expectNear(mean, worked(name, taken), 1e-9, name);
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

describe('the difference of two plans in money', () => {
  const wider: Plan = {
    ...plan,
    stages: plan.stages.map((stage) => ({ ...stage, channels: stage.channels + 1 })),
  };
  /** Student's t at 0.975 with 5 degrees of freedom (tables: 2.571; the other digits from memory, jstat has 2.570581835). */
  const T5 = 2.570581835636;

  test.each(['cost_a_head', 'cost_a_season', 'margin_a_season'])(
    '%s has the interval of its seasons, paired',
    async (name) => {
      const study = compareStudy(
        [
          { name: 'as it is', plan },
          { name: 'wider', plan: wider },
        ],
        1,
        SEASONS,
        null,
      );
      const [, found] = study.conclude(await gather(study.workload))!.plans;
      const { mean, low, high, verdict } = (found!.figures as Readonly<Record<string, Compared>>)[name]!
        .difference!;
      const [ours, theirs] = [takenIn(wider), takenIn(plan)];
      const difference = worked(name, ours) - worked(name, theirs);
      // With so few seasons each is a section: of a mean this is the interval of paired differences.
      const parts = ours.map((_, i) => worked(name, [ours[i]!]) - worked(name, [theirs[i]!]));
      const squares = parts.reduce((sum, part) => sum + (part - difference) ** 2, 0);
      const half = T5 * Math.sqrt(squares / (SEASONS * (SEASONS - 1)));
      expectNear(mean, difference, 1e-9);
      expectNear(low!, difference - half, 1e-9);
      expectNear(high!, difference + half, 1e-9);
      expect(verdict).toBe(difference - half > 0 ? 'more' : difference + half < 0 ? 'less' : 'none');
      expect(half).toBeGreaterThan(0);
    },
  );
});
