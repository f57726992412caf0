/**
 * `size` on lines where nothing is left to chance: an area dealt to two stages reaches the best whole-channel split, found here
 * by trying all; and where the best split of a fluid is a whole number of channels, it is found.
 *
 * With constant times a line that is never short of seedlings picks min(holes / days) a day in the long run, exactly (the
 * largest cycle mean of its schedule; tests/theory/deterministic.test.ts checks the line against that).
 */

import { describe, expect, test } from 'vitest';
import type { Plan } from '../../sim/models/plan.js';
import type { SizeResult } from '../../sim/study/size/size.js';
import { time } from '../support/plans.js';
import { fluidSplit } from '../support/tandem.js';
import { saturated, sizeOf } from './size-lines.js';

/** A stage that takes part of an area. */
interface Stage {
  readonly holes: number;
  readonly holeAreaCm2: number;
  readonly days: number;
}

const WEEKS = 150;

/** Area of a channel [m2]. */
function area({ holes, holeAreaCm2 }: Stage): number {
  return (holes * holeAreaCm2) / 1e4;
}

function lineOf(nursery: Stage, finishing: Stage, m2: number): Plan {
  const times = [time(nursery.days), time(finishing.days)] as const;
  const holes = (m2 / area(nursery)) * nursery.holes + (m2 / area(finishing)) * finishing.holes;
  const plan = saturated([1, 1], times, WEEKS, { aDay: bestOfAll(nursery, finishing, m2) / 7, holes });
  const [outside, ...stages] = plan.stages;
  return {
    ...plan,
    stages: [
      outside!,
      ...stages.map((stage, s) => {
        const { holes, holeAreaCm2 } = [nursery, finishing][s]!;
        return { ...stage, holesPerChannel: holes, holeAreaCm2 };
      }),
    ],
  };
}

/** Heads a week in the long run. */
function exactly(nursery: Stage, finishing: Stage, [n, f]: readonly [number, number]): number {
  return 7 * Math.min((n * nursery.holes) / nursery.days, (f * finishing.holes) / finishing.days);
}

/** The most heads a week of all splits that fit into the area. */
function bestOfAll(nursery: Stage, finishing: Stage, m2: number): number {
  let best = 0;
  for (let n = 1; n * area(nursery) < m2; n++) {
    for (let f = 1; n * area(nursery) + f * area(finishing) <= m2 * (1 + 1e-12); f++) {
      best = Math.max(best, exactly(nursery, finishing, [n, f]));
    }
  }
  return best;
}

function channelsOf({ channels }: SizeResult['sizes'][number]): [number, number] {
  return [channels['nursery']!, channels['finishing']!];
}

describe('an area dealt to a nursery and finishing channels of constant times', () => {
  test.each<{ nursery: Stage; finishing: Stage; m2: number }>([
    {
      nursery: { holes: 20, holeAreaCm2: 50, days: 14 },
      finishing: { holes: 8, holeAreaCm2: 312.5, days: 24 },
      m2: 8.2,
    },
    {
      nursery: { holes: 6, holeAreaCm2: 100, days: 14 },
      finishing: { holes: 9, holeAreaCm2: 400, days: 21 },
      m2: 5,
    },
    {
      nursery: { holes: 5, holeAreaCm2: 64, days: 10 },
      finishing: { holes: 4, holeAreaCm2: 225, days: 28 },
      m2: 2.5,
    },
    {
      nursery: { holes: 10, holeAreaCm2: 80, days: 17 },
      finishing: { holes: 3, holeAreaCm2: 500, days: 19 },
      m2: 3.3,
    },
  ])('$m2 m2: the best of all splits is found', async ({ nursery, finishing, m2 }) => {
    const plan = lineOf(nursery, finishing, m2);
    const result = await sizeOf(plan, { kind: 'area', m2, between: [] }, { seed: 1, seasons: 2 });
    const sizes = result.sizes.filter(({ asked }) => asked);
    for (const size of sizes) {
      // Between the first week that counts and the end, plants that stand in the line at either end are what differs.
      const edges = (size.holes + plan.stages[2]!.holesPerChannel) / result.running!.weeks;
      const heads = size.figures['heads_a_week']!.mean;
      expect(Math.abs(heads - exactly(nursery, finishing, channelsOf(size)))).toBeLessThanOrEqual(edges);
      expect(size.bound.pure.heads_a_week).toBeCloseTo(exactly(nursery, finishing, channelsOf(size)), 10);
    }
    const found = sizes.find(({ name }) => name === result.best!.size)!;
    expect(exactly(nursery, finishing, channelsOf(found))).toBe(bestOfAll(nursery, finishing, m2));
    expect(found.area_m2).toBeLessThanOrEqual(m2 + 1e-9);
  });

  test('where the best split of a fluid is whole channels, that is the one', async () => {
    const nursery: Stage = { holes: 20, holeAreaCm2: 50, days: 14 };
    const finishing: Stage = { holes: 8, holeAreaCm2: 312.5, days: 24 };
    // 200 and 32 plants/m2, as in the split that support/tandem.ts is checked against.
    const fluid = fluidSplit(8.2, [
      { days: 14, density: 200, survival: 1 },
      { days: 24, density: 32, survival: 1 },
    ]);
    // By hand: 14/200 + 24/32 = 0.82 m2 for a plant a day, so 10 a day need 0.7 and 7.5 m2: 7 and 30 channels.
    expect(fluid.rate).toBeCloseTo(10, 12);
    const result = await sizeOf(
      lineOf(nursery, finishing, 8.2),
      { kind: 'area', m2: 8.2, between: ['nursery', 'finishing'] },
      { seed: 1, seasons: 2 },
    );
    expect(result.best).toEqual({ size: '7 x nursery, 30 x finishing', not_told_apart: [] });
  });
});
