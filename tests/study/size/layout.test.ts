/** Which sizes a layout stands for. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { withChannels } from '../../../sim/models/channels.js';
import type { Plan, StagePlan } from '../../../sim/models/plan.js';
import { success } from '../../../sim/models/result.js';
import { areaIn, holesIn, MOST_SIZES, type SizeLayout, sizesOf } from '../../../sim/study/size/layout.js';
import { crop, every, grow, line, time } from '../../support/plans.js';

function stageOf(
  name: string,
  channels: number,
  holes: number,
  holeAreaCm2: number | null = null,
): StagePlan {
  return { name, channels, holesPerChannel: holes, holeAreaCm2, cleanDays: 0 };
}

function planOf(...stages: readonly StagePlan[]): Plan {
  return line(
    stages,
    [
      crop(
        stages.map(() => grow(time(5))),
        every(7, 70, 1),
      ),
    ],
    { weeks: 10 },
  );
}

const PLAN = planOf(stageOf('tray', 1, 40), stageOf('nursery', 2, 24, 100), stageOf('finishing', 8, 9, 400));

function countsOf(layout: SizeLayout, plan = PLAN): readonly (readonly number[])[] {
  const sizes = sizesOf(plan, layout);
  if (!sizes.ok) throw new Error(sizes.faults.join('\n'));
  return sizes.value.counts;
}

/** The sentences of a layout that does not fit. */
function faultsOf(layout: SizeLayout, plan = PLAN): string {
  const sizes = sizesOf(plan, layout);
  if (sizes.ok) throw new Error(`${sizes.value.counts.length} sizes`);
  return sizes.faults.join('\n');
}

describe('around the present size', () => {
  test('half to one and a half times as many channels of the last two stages are tried', () => {
    expect(sizesOf(PLAN, { kind: 'around' })).toEqual(
      success({ varied: [1, 2], counts: [1, 2, 3].flatMap((n) => [4, 6, 8, 10, 12].map((f) => [1, n, f])) }),
    );
  });

  test('of a line of one stage, that one', () => {
    expect(sizesOf(planOf(stageOf('bed', 1, 10)), { kind: 'around' })).toEqual(
      success({ varied: [0], counts: [[1], [2]] }),
    );
  });
});

describe('lists of channels', () => {
  test('every count of a stage goes with every count of the others, the rest stays', () => {
    const stages = [
      { stage: 'finishing', counts: [9, 7] },
      { stage: 'tray', counts: [1, 2, 1] },
    ];
    expect(sizesOf(PLAN, { kind: 'channels', stages })).toEqual(
      success({
        varied: [0, 2],
        counts: [
          [1, 2, 7],
          [1, 2, 9],
          [2, 2, 7],
          [2, 2, 9],
        ],
      }),
    );
  });

  test('all stages that are not there, or there twice, are told', () => {
    const stages = ['nursry', 'tray', 'cellar', 'tray'].map((stage) => ({ stage, counts: [1] }));
    const faults = faultsOf({ kind: 'channels', stages });
    expect(faults).toMatch(/no stage "nursry"\. .*tray, nursery, finishing\. Did you mean nursery\?/);
    expect(faults).toMatch(/no stage "cellar"/);
    expect(faults).toMatch(/tray must not be named twice/);
  });

  test('more plans than are tried are refused, as many as are tried are not', () => {
    const upTo = (n: number): number[] => Array.from({ length: n }, (_, i) => i + 1);
    const stages = (n: number) => [
      { stage: 'nursery', counts: upTo(20) },
      { stage: 'finishing', counts: upTo(n) },
    ];
    expect(countsOf({ kind: 'channels', stages: stages(20) })).toHaveLength(MOST_SIZES);
    expect(faultsOf({ kind: 'channels', stages: stages(21) })).toMatch(/must not make 420 plans/);
  });
});

describe('a number of channels', () => {
  test('is dealt to the last two stages in every way, at least one to each', () => {
    expect(countsOf({ kind: 'split', channels: 4, between: [] })).toEqual([
      [1, 1, 3],
      [1, 2, 2],
      [1, 3, 1],
    ]);
  });

  test('is dealt to the stages that are named, in whatever order', () => {
    const counts = countsOf({ kind: 'split', channels: 7, between: ['finishing', 'tray', 'nursery'] });
    // Seven in three parts of at least one: 6 x 5 / 2 ways.
    expect(counts).toHaveLength(15);
    expect(new Set(counts.map(String)).size).toBe(15);
    for (const channels of counts) expect(channels.reduce((sum, n) => sum + n, 0)).toBe(7);
    expect(counts[0]).toEqual([1, 1, 5]);
    expect(counts.at(-1)).toEqual([5, 1, 1]);
  });

  test('must reach for one in each stage, and be dealt to two', () => {
    expect(countsOf({ kind: 'split', channels: 2, between: [] })).toEqual([[1, 1, 1]]);
    expect(faultsOf({ kind: 'split', channels: 1, between: [] })).toMatch(
      /^1 channels must not be dealt to nursery, finishing: a channel in each takes 2\. Give at least 2/,
    );
    expect(faultsOf({ kind: 'split', channels: 9, between: ['tray'] })).toMatch(/tray alone.* Name two\./);
    const bed = planOf(stageOf('bed', 1, 10));
    expect(faultsOf({ kind: 'split', channels: 9, between: [] }, bed)).toMatch(/bed alone.* only one/);
    expect(faultsOf({ kind: 'split', channels: 402, between: [] })).toMatch(/more than 400 ways/);
  });
});

describe('an area', () => {
  test('is dealt until it takes no further channel', () => {
    // A nursery channel takes 0.24 m2, a finishing channel 0.36 m2. With 1 + 2 there would be room for one more of the nursery.
    expect(countsOf({ kind: 'area', m2: 1.2, between: [] })).toEqual([
      [1, 2, 2],
      [1, 3, 1],
    ]);
  });

  test('is used up to a hair: 0.1 + 0.2 is 0.3', () => {
    const plan = planOf(stageOf('nursery', 1, 1, 1000), stageOf('finishing', 1, 1, 2000));
    expect(countsOf({ kind: 'area', m2: 0.3, between: [] }, plan)).toEqual([[1, 1]]);
  });

  test('any: each way fits, leaves no room for a channel, and none is missing', () => {
    const stage = fc.record({
      holes: fc.integer({ min: 1, max: 9 }),
      cm2: fc.integer({ min: 50, max: 500 }),
    });
    fc.assert(
      fc.property(
        fc.array(stage, { minLength: 2, maxLength: 3 }),
        fc.integer({ min: 2, max: 12 }),
        (list, times) => {
          const areas = list.map(({ holes, cm2 }) => holes * cm2);
          const plan = planOf(...list.map(({ holes, cm2 }, s) => stageOf(`stage ${s}`, 1, holes, cm2)));
          const cm2 = areas.reduce((sum, area) => sum + area, 0) + times * Math.max(...areas);
          const between = list.map((_, s) => `stage ${s}`);
          const sizes = sizesOf(plan, { kind: 'area', m2: cm2 / 1e4, between });
          // By trying all.
          const most = areas.map((area) => Math.floor(cm2 / area));
          let all: number[][] = [[]];
          for (const upTo of most)
            all = all.flatMap((deal) => Array.from({ length: upTo }, (_, i) => [...deal, i + 1]));
          const used = (deal: readonly number[]): number =>
            deal.reduce((sum, n, s) => sum + n * areas[s]!, 0);
          const maximal = all.filter((deal) => used(deal) <= cm2 && used(deal) + Math.min(...areas) > cm2);
          expect(sizes.ok).toBe(maximal.length <= MOST_SIZES);
          if (sizes.ok) expect(sizes.value.counts.map(String).sort()).toEqual(maximal.map(String).sort());
        },
      ),
      { seed: 6 },
    );
  });

  test('must be known of each hole, and reach for a channel in each stage', () => {
    const faults = faultsOf({ kind: 'area', m2: 6, between: ['tray', 'finishing'] });
    expect(faults).toMatch(/Stage tray must not lack hole_area_cm2.*Example: hole_area_cm2: 400/);
    expect(faultsOf({ kind: 'area', m2: 0.59, between: [] })).toMatch(/takes 0\.6 m2\. Give at least 0\.6/);
    expect(countsOf({ kind: 'area', m2: 0.6, between: [] })).toEqual([[1, 1, 1]]);
    expect(faultsOf({ kind: 'area', m2: 1e9, between: [] })).toMatch(/more than 400 ways/);
  });
});

test('a size has other channels and nothing else, and its holes and area are those of the stages that vary', () => {
  const plan = withChannels(PLAN, [1, 3, 10]);
  expect(plan.stages.map(({ channels }) => channels)).toEqual([1, 3, 10]);
  expect({ ...plan, stages: PLAN.stages }).toEqual(PLAN);
  expect(holesIn(plan, [1, 2])).toBe(72 + 90);
  // 72 x 100 cm2 + 90 x 400 cm2.
  expect(areaIn(plan, [1, 2])).toBe(4.32);
  expect(areaIn(plan, [0, 2])).toBeNull();
});
