/** Sizes of a line side by side: what is run, and what is concluded from it. */

import { describe, expect, test } from 'vitest';
import { withChannels } from '../../../sim/models/channels.js';
import type { Plan, StagePlan } from '../../../sim/models/plan.js';
import { gather } from '../../../sim/seasons/gather.js';
import { SeasonRunner } from '../../../sim/seasons/season-runner.js';
import { compareStudy } from '../../../sim/study/compare.js';
import { ladderSeasons } from '../../../sim/study/size/jobs.js';
import { type SizeLayout, sizesOf } from '../../../sim/study/size/layout.js';
import { type SizeResult, sizeStudy } from '../../../sim/study/size/size.js';
import { crop, every, grow, line, time, visitDays } from '../../support/plans.js';

const WEEKS = 30;
const DAYS = 7 * WEEKS;

/** A stage of one-hole channels. */
function holes(name: string, channels: number, rest: Partial<StagePlan> = {}): StagePlan {
  return { name, channels, holesPerChannel: 1, holeAreaCm2: null, cleanDays: 0, ...rest };
}

/** A nursery of 7 d and finishing channels of 21 d, a visit every day, so many seeds a day. */
function twoStages(nursery: number, finishing: number, seeds: number, spread = 0): Plan {
  return line(
    [holes('nursery', nursery), holes('finishing', finishing)],
    [crop([grow(time(7, spread)), grow(time(21, spread))], every(1, DAYS, seeds))],
    { weeks: WEEKS, visits: visitDays(WEEKS) },
  );
}

/** A crowded line in which much is left to chance. */
const CROWDED = line(
  [holes('nursery', 4, { holesPerChannel: 5 }), holes('finishing', 6, { holesPerChannel: 7, cleanDays: 1 })],
  [
    crop([grow(time(7, 0.3), { loss: 0.1, keeps: 3 }), grow(time(14, 0.3))], every(2, DAYS, 6), {
      germination: 0.8,
    }),
  ],
  { weeks: WEEKS, visits: visitDays(WEEKS, [1, 0, 0]) },
);

function channels(nursery: readonly number[], finishing: readonly number[]): SizeLayout {
  return {
    kind: 'channels',
    stages: [
      { stage: 'nursery', counts: nursery },
      { stage: 'finishing', counts: finishing },
    ],
  };
}

function studyOf(plan: Plan, layout: SizeLayout, seasons: number) {
  const sizes = sizesOf(plan, layout);
  if (!sizes.ok) throw new Error(sizes.faults.join('\n'));
  return sizeStudy(plan, sizes.value, layout.kind, 1, seasons);
}

async function sized(plan: Plan, layout: SizeLayout, seasons = 20): Promise<SizeResult> {
  const study = studyOf(plan, layout, seasons);
  return study.conclude(await gather(study.workload))!;
}

describe('where nothing is left to chance', () => {
  test('the figures are those of pencil and paper', async () => {
    // 2 a day are sown: nursery 2 x 7 = 14 holes, finishing 2 x 21 = 42.
    const result = await sized(twoStages(20, 42, 2), channels([20], [21, 42, 63]), 5);
    // The first pick is on day 28; 4 weeks are over by then, and all who ever pick have begun before the week from day 35.
    expect(result).toMatchObject({
      seasons: 5,
      partial: false,
      running: { from: '2027-02-08', weeks: 25 },
      varied: ['nursery', 'finishing'],
      present: '20 x nursery, 42 x finishing',
      best: { size: '20 x nursery, 42 x finishing', not_told_apart: ['20 x nursery, 63 x finishing'] },
    });
    const [half, present, more] = result.sizes;
    expect(half!.figures['heads_a_week']).toMatchObject({ mean: 7, low: 7, high: 7 });
    expect(half!.figures['heads_a_week']!.difference).toEqual({ mean: -7, low: -7, high: -7 });
    expect(half!.behind_best).toEqual({ mean: 7, low: 7, high: 7 });
    expect(present!.figures['heads_a_week']).toEqual({ mean: 14, low: 14, high: 14, difference: null });
    expect(present!.figures['bad_week']!.mean).toBe(14);
    expect(present!.behind_best).toBeNull();
    expect(more!.behind_best).toEqual({ mean: 0, low: 0, high: 0 });
    // Finishing stands empty until day 7, then fills by 2 a day for 21 days.
    const occupied = 2 * ((21 * 22) / 2) + 42 * (DAYS - 7 - 21);
    expect(present!.idle[1]!.share!.mean).toBeCloseTo(1 - occupied / (42 * DAYS), 12);
    expect(present!.bound.pure).toEqual({ heads_a_week: 14, by: 'finishing' });
    expect(half!.bound.pure).toEqual({ heads_a_week: 7, by: 'finishing' });
    // More than 42 holes are of no use: the line from 41 to 83 holes rises by 7, and at 62 it is halfway.
    expect(result.frontier).toEqual({
      cost: 'holes',
      sizes: ['20 x nursery, 21 x finishing', '20 x nursery, 42 x finishing'],
    });
    expect(result.knee).toMatchObject({ size: '20 x nursery, 42 x finishing', height: 0.5, beyond: 0 });
    expect(result.sizes.map((size) => [size.channels, size.holes, size.area_m2])).toEqual([
      [{ nursery: 20, finishing: 21 }, 41, null],
      [{ nursery: 20, finishing: 42 }, 62, null],
      [{ nursery: 20, finishing: 63 }, 83, null],
    ]);
  });

  test('one more channel is worth 7 / 21 heads a week where holes are short, nothing where they are not', async () => {
    const short = await sized(twoStages(20, 21, 2), channels([20], [21]), 5);
    const [nursery, finishing] = short.worth.stages;
    expect(nursery).toMatchObject({ stage: 'nursery', holes: 1, brings: false });
    expect(nursery!.heads_a_week!.mean).toBe(0);
    expect(finishing!.brings).toBe(true);
    // One pick more or less at the ends of 25 weeks.
    expect(Math.abs(finishing!.heads_a_week!.mean - 1 / 3)).toBeLessThan(1 / 25);
    expect(short.worth.hold_back).toEqual(['finishing']);
    const enough = await sized(twoStages(20, 42, 2), channels([20], [42]), 5);
    expect(enough.worth.hold_back).toEqual([]);
  });
});

test('the knee is no size at the end of the range, and the same one however far the range goes', async () => {
  // 42 finishing holes take what is sown: more are of no use, which only a range beyond them can tell.
  const kneeOf = async (...finishing: number[]) =>
    (await sized(twoStages(20, 42, 2), channels([20], finishing), 5)).knee;
  expect(await kneeOf(21, 42)).toBeNull();
  const short = await kneeOf(21, 42, 63);
  const { height: _, ...long } = (await kneeOf(21, 42, 63, 84, 105))!;
  expect(short).toMatchObject({ ...long, size: '20 x nursery, 42 x finishing' });
});

describe('the size as it is', () => {
  test('is there also when it was not asked for, but never the best nor on the frontier', async () => {
    const result = await sized(CROWDED, channels([2, 3], [4, 5]));
    expect(result.sizes.map(({ asked }) => asked)).toEqual([false, true, true, true, true]);
    expect(result.sizes[0]!.name).toBe(result.present);
    // It has more of everything.
    expect(result.sizes[0]!.behind_best!.high).toBeLessThan(0);
    expect(result.best!.size).not.toBe(result.present);
    expect(result.frontier!.sizes).not.toContain(result.present);
  });

  test('is there once when it was asked for', async () => {
    const result = await sized(CROWDED, channels([3, 4], [6]));
    expect(result.sizes.map(({ asked }) => asked)).toEqual([true, true]);
    expect(result.present).toBe('4 x nursery, 6 x finishing');
  });
});

describe('what is run', () => {
  test('a size that is also the present one with a channel more is run once', () => {
    const counts = studyOf(CROWDED, channels([4, 5], [6, 7]), 20).workload.jobs.map(({ plan, seasons }) => [
      seasons,
      ...plan.stages.map((stage) => stage.channels),
    ]);
    const whole = counts.filter(([seasons]) => seasons === 20).map((row) => row.slice(1).join(' '));
    // Four sizes; 5 + 6 and 4 + 7 are two of them.
    expect(whole.sort()).toEqual(['4 6', '4 7', '5 6', '5 7']);
    // Five lines of each ladder, with fewer seasons.
    expect(counts.filter(([seasons]) => seasons === ladderSeasons(20, 4))).toHaveLength(4 * 5);
  });

  test('the ladder is run for a tenth of the seasons, at least 5 and at most 20, fewer where there are many sizes', () => {
    const some = [1, 5, 20, 80, 120, 200, 10_000];
    expect(some.map((seasons) => ladderSeasons(seasons, 15))).toEqual([1, 5, 5, 8, 12, 20, 20]);
    expect([50, 51, 100, 200, 400].map((sizes) => ladderSeasons(200, sizes))).toEqual([20, 19, 10, 5, 5]);
  });
});

test('sizes meet the same luck as the plans of a comparison: the figures and the worth of a channel are the same', async () => {
  const result = await sized(CROWDED, channels([3, 4], [6]), 40);
  const contenders = [
    [4, 6],
    [3, 6],
    [5, 6],
    [4, 7],
  ].map((counts) => ({ name: counts.join('+'), plan: withChannels(CROWDED, counts) }));
  const compare = compareStudy(contenders, 1, 40, null);
  const compared = compare.conclude(await gather(compare.workload))!;
  // Both count the same weeks.
  expect(compared.running).toEqual(result.running);
  const [present, fewer, nursery, finishing] = compared.plans.map(({ figures }) => figures['heads_a_week']!);
  const own = result.sizes.map(({ figures }) => figures['heads_a_week']!);
  expect(own[1]).toMatchObject({ mean: present!.mean, low: present!.low, high: present!.high });
  expect(own[0]).toMatchObject({ mean: fewer!.mean, low: fewer!.low, high: fewer!.high });
  expect(fewer!.difference).toMatchObject(own[0]!.difference!);
  expect(nursery!.difference).toMatchObject(result.worth.stages[0]!.heads_a_week!);
  expect(finishing!.difference).toMatchObject(result.worth.stages[1]!.heads_a_week!);
});

test('a split and an area have neither frontier nor knee: all their sizes cost the same', async () => {
  const split = await sized(CROWDED, { kind: 'split', channels: 5, between: [] }, 5);
  expect([split.frontier, split.knee]).toEqual([null, null]);
  expect(split.sizes.filter(({ asked }) => asked)).toHaveLength(4);
  const plan = { ...CROWDED, stages: CROWDED.stages.map((stage) => ({ ...stage, holeAreaCm2: 100 })) };
  const area = await sized(plan, { kind: 'area', m2: 0.3, between: [] }, 5);
  expect([area.frontier, area.knee]).toEqual([null, null]);
  for (const { asked, area_m2 } of area.sizes) if (asked) expect(area_m2!).toBeLessThanOrEqual(0.3);
});

test('room is counted in m2 where every stage that varies says how much a hole takes', async () => {
  const stages = CROWDED.stages.map((stage, s) => ({ ...stage, holeAreaCm2: s === 0 ? null : 100 }));
  const plan = { ...CROWDED, stages };
  expect((await sized(plan, channels([4], [5, 6]), 2)).frontier!.cost).toBe('holes');
  const finishing: SizeLayout = { kind: 'channels', stages: [{ stage: 'finishing', counts: [5, 6] }] };
  expect((await sized(plan, finishing, 2)).frontier!.cost).toBe('area_m2');
});

describe('a study in parts', () => {
  test('three shards joined give what the whole gives, also by way of JSON', async () => {
    const study = studyOf(CROWDED, channels([3, 4], [6]), 12);
    const whole = study.conclude(await gather(study.workload));
    const parts: unknown[] = [];
    for (const k of [1, 2, 3]) {
      const part = await study.carryOut(new SeasonRunner(study.workload), { k, n: 3 });
      parts.unshift(JSON.parse(JSON.stringify(study.pack(part))));
    }
    expect(study.conclude(study.unpack(parts))).toEqual(whole);
  });

  test('stopped early it says so, and counts the seasons that it has', async () => {
    const study = studyOf(CROWDED, channels([3, 4], [6]), 500);
    let asked = 0;
    const some = await study.carryOut(new SeasonRunner(study.workload), { k: 1, n: 1 }, () =>
      ++asked < 2000 ? null : Promise.resolve(false),
    );
    const result = study.conclude(some)!;
    expect(result.partial).toBe(true);
    expect(result.seasons).toBeGreaterThan(0);
    expect(result.seasons).toBeLessThan(500);
    for (const { figures } of result.sizes) expect(figures['heads_a_week']!.mean).toBeGreaterThan(0);
  });

  test('stopped before the first season it has nothing to say', async () => {
    const study = studyOf(CROWDED, channels([3, 4], [6]), 50);
    const none = await study.carryOut(new SeasonRunner(study.workload), { k: 1, n: 1 }, () =>
      Promise.resolve(false),
    );
    expect(study.conclude(none)).toBeNull();
  });
});

test('one season has no intervals: nothing can be told apart', async () => {
  const result = await sized(CROWDED, channels([3, 4], [6, 7]), 1);
  expect(result.worth.hold_back).toBeNull();
  expect(result.best!.not_told_apart).toHaveLength(3);
  expect(result.sizes[0]!.figures['heads_a_week']).toMatchObject({ low: null, high: null });
});

test('a line that never picks has no running week, no best and no knee', async () => {
  const plan = { ...CROWDED, weeks: 2 };
  const result = await sized(plan, channels([3, 4], [6]), 5);
  expect(result).toMatchObject({ running: null, best: null, knee: null, worth: { hold_back: null } });
  for (const size of result.sizes) {
    expect(size.figures).toEqual({ heads_a_week: null, bad_week: null });
    expect(size.gap).toBeNull();
  }
});
