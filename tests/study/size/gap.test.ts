/** Why a line gives less than its holes and times allow: each step against a line in which only that step is there. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Growing, Plan } from '../../../sim/models/plan.js';
import { SeasonRunner } from '../../../sim/seasons/season-runner.js';
import { GAP_STEPS, type Gap, ladderOf } from '../../../sim/study/size/gap.js';
import { sizeStudy } from '../../../sim/study/size/size.js';
import { WHOLE } from '../../../sim/study/study.js';
import { arbitraryPlan } from '../../support/arbitrary-plan.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';

/** The gap of a plan as it is; null if no week of it counts. */
async function gapOf(plan: Plan, seasons = 5): Promise<Gap | null> {
  const channels = plan.stages.map((one) => one.channels);
  const study = sizeStudy(plan, { varied: [0], counts: [channels] }, 'channels', 1, seasons);
  return study.conclude(await study.carryOut(new SeasonRunner(study.workload), WHOLE))!.sizes[0]!.gap;
}

/** The steps of a plan in which a week counts, by name. */
async function stepsOf(plan: Plan, seasons?: number): Promise<Record<(typeof GAP_STEPS)[number], number>> {
  const gap = (await gapOf(plan, seasons))!;
  return Object.fromEntries(gap.steps.map(({ name, change }) => [name, change.mean])) as Record<
    (typeof GAP_STEPS)[number],
    number
  >;
}

/** Visits, but for those on some days. */
function withoutDays(visits: Plan['visits'], gone: readonly number[]): { kind: 'days'; days: number[] } {
  const days = visits.kind === 'days' ? visits.days : [];
  return { kind: 'days', days: days.filter((day) => !gone.includes(day)) };
}

const WEEKS = 200;
const DAYS = 7 * WEEKS;

/** One stage of `holes` holes; a seed is sown for each hole every quarter of a day, so that a free hole is soon taken. */
function full(holes: number, growing: Growing, rest: Partial<Plan> = {}, cleanDays = 0): Plan {
  return line([stage('finishing', holes, cleanDays)], [crop([growing], every(0.25, DAYS, holes))], {
    weeks: WEEKS,
    ...rest,
  });
}

describe('a ladder', () => {
  test('of a plan that knows none of the things holds the same line six times', () => {
    const plan = full(4, grow(time(10)));
    expect(new Set(ladderOf(plan))).toEqual(new Set([plan]));
  });

  test('adds one thing after the other, the plan itself last', () => {
    const plan = line(
      [stage('nursery', 4, 1), stage('finishing', 8, 2)],
      [
        crop(
          [grow(time(5, 0.2), { loss: 0.1, keeps: 3 }), grow(time(9, 0.3, 'gamma'), { keeps: 2 })],
          every(3, 70, 2),
          { germination: 0.8, cuts: 2, regrow: grow(time(4, 0.1), { loss: 0.2, keeps: 2 }) },
        ),
      ],
      {
        weeks: 10,
        visits: {
          ...withoutDays(visitDays(10, [1, 0]), [20, 22]),
          away: { days: [20, 21, 22], visits: [20, 22] },
        },
        want: { heads: 3, days: [20, 30] },
      },
    );
    const rungs = ladderOf(plan);
    const seen = rungs.map(({ stages, visits, crops, want }) => {
      const [leaf] = crops;
      return {
        spread: [...leaf!.stages, leaf!.regrow!].map((one) => one.time.spread),
        visits: visits.kind === 'days' ? visits.days.length : visits.kind,
        germination: leaf!.germination,
        loss: [...leaf!.stages, leaf!.regrow!].map((one) => one.loss),
        keeps: [...leaf!.stages, leaf!.regrow!].map((one) => one.keeps),
        clean: stages.map((one) => one.cleanDays),
        want,
      };
    });
    const ideal = {
      spread: [0, 0, 0],
      visits: 'always',
      germination: 1,
      loss: [0, 0, 0],
      keeps: [Infinity, Infinity, Infinity],
      clean: [0, 0],
      want: plan.want,
    };
    const spread = { ...ideal, spread: [0.2, 0.3, 0.1] };
    const visited = { ...spread, visits: 35 };
    const losing = { ...visited, germination: 0.8, loss: [0.1, 0, 0.2], keeps: [3, 2, 2] };
    const cleaning = { ...losing, clean: [1, 2] };
    expect(seen).toEqual([ideal, spread, visited, losing, cleaning, { ...cleaning, visits: 33 }]);
    expect(rungs.at(-1)).toBe(plan);
  });

  test('adds up from holes / time to what is picked, whatever the plan is', async () => {
    let gaps = 0;
    await fc.assert(
      fc.asyncProperty(arbitraryPlan(), async (plan) => {
        const gap = await gapOf(plan, 3);
        if (gap === null) return;
        gaps++;
        expect(gap.steps.map(({ name }) => name)).toEqual(GAP_STEPS);
        const sum = gap.steps.reduce(
          (level, { change }) => level + change.mean,
          gap.holes_over_time.heads_a_week,
        );
        // Rounding of six additions.
        expect(Math.abs(sum - gap.heads_a_week)).toBeLessThan(1e-9 * (1 + gap.holes_over_time.heads_a_week));
        expect(gap.steps[0]!.change.mean).toBeLessThanOrEqual(0);
      }),
      { numRuns: 150, seed: 4 },
    );
    expect(gaps).toBeGreaterThan(50);
  });
});

describe('only the step of the one thing that is there differs from 0', () => {
  test('nothing: a full line of constant times gives what holes / time allow', async () => {
    // A hole is taken again at the instant at which it is left: 4 plants every 10 days.
    const steps = await stepsOf(full(4, grow(time(10))));
    const { batches, ...others } = steps;
    // 2 000 days of whole rounds of 10 are cut by the first and the last week: at most a round of 4 on all weeks.
    expect(Math.abs(batches)).toBeLessThan(4 / (WEEKS - 2));
    expect(Object.values(others)).toEqual([0, 0, 0, 0, 0, 0]);
  });

  test('sown_or_wanted: what is sown', async () => {
    // 40 holes pass on 28 plants of 10 days a week, 3 are sown.
    const plan = line([stage('finishing', 40)], [crop([grow(time(10))], every(7, DAYS, 3))], {
      weeks: WEEKS,
    });
    expect((await gapOf(plan))!.holes_over_time).toEqual({ heads_a_week: 28, by: 'finishing' });
    expect(await stepsOf(plan)).toEqual({
      sown_or_wanted: -25,
      batches: 0,
      spread: 0,
      visits: 0,
      losses: 0,
      cleaning: 0,
      absence: 0,
    });
  });

  test('sown_or_wanted: what is wanted', async () => {
    const wanted = { heads: 1, days: Array.from({ length: WEEKS }, (_, week) => 7 * week + 3) };
    const steps = await stepsOf(full(4, grow(time(10)), { want: wanted }));
    // Holes and times allow 2.8 a week, 1 is wanted.
    expect(steps.sown_or_wanted).toBeCloseTo(-1.8, 12);
    expect(steps.batches).toBeCloseTo(0, 12);
    expect([steps.spread, steps.visits, steps.losses, steps.cleaning, steps.absence]).toEqual([
      0, 0, 0, 0, 0,
    ]);
  });

  test('batches: seeds that find no hole free when they are sown', async () => {
    // Every 7 days a hole may be taken, and is held for 10: every other sowing finds it free. 1/2 a week instead of 0.7.
    const plan = line([stage('finishing', 1)], [crop([grow(time(10))], every(7, DAYS, 1))], { weeks: WEEKS });
    const { batches, ...others } = await stepsOf(plan);
    // One pick more or less on all weeks.
    expect(Math.abs(batches + 0.2)).toBeLessThan(1 / (WEEKS - 2));
    expect(Object.values(others)).toEqual([0, 0, 0, 0, 0, 0]);
  });

  test('spread: two single holes pick 1 / E max of their times', async () => {
    // As in tests/theory/series.test.ts: lognormal, 24 d, spread 0.1: E max = 25.3495689292 d, computed by integration.
    const plan = line(
      [stage('nursery', 1), stage('finishing', 1)],
      [crop([grow(time(24, 0.1)), grow(time(24, 0.1))], every(0.25, 7 * 520, 1))],
      { weeks: 520 },
    );
    const gap = (await gapOf(plan, 200))!;
    const spread = gap.steps.find(({ name }) => name === 'spread')!.change;
    const theory = 7 / 25.3495689292 - 7 / 24;
    // A seed waits an eighth of a day on average for the nursery hole to be free again (0.5 % of 24 d), and the ends of the season
    // cut off less than a pick (1 in 151).
    const bias = 0.005 * (7 / 24) + 1 / 518;
    const half = (spread.high! - spread.low!) / 2;
    expect(half).toBeLessThan(0.1 * Math.abs(theory));
    expect(Math.abs(spread.mean - theory)).toBeLessThan(2 * half + bias);
    expect(spread.high!).toBeLessThan(0);
    const others = gap.steps.filter(({ name }) => !['spread', 'batches'].includes(name));
    expect(others.map(({ change }) => change.mean)).toEqual([0, 0, 0, 0, 0]);
  });

  test('visits: ready plants wait for the next one', async () => {
    // Ready after 10 days, seen every 7: a hole gives a head in 14 days instead of 10.
    const { visits, batches, ...others } = await stepsOf(
      full(4, grow(time(10)), { visits: visitDays(WEEKS, [1, 0, 0, 0, 0, 0, 0]) }),
    );
    expect(Math.abs(batches)).toBeLessThan(4 / (WEEKS - 2));
    expect(Math.abs(visits - (2 - 2.8))).toBeLessThan(8 / (WEEKS - 2));
    expect(Object.values(others)).toEqual([0, 0, 0, 0, 0]);
  });

  test('losses: a plant that dies has taken half of its time', async () => {
    const gap = (await gapOf(full(20, grow(time(10), { loss: 0.2 })), 200))!;
    const { batches, losses, ...others } = Object.fromEntries(
      gap.steps.map(({ name, change }) => [name, change]),
    );
    expect(Math.abs(batches!.mean)).toBeLessThan(20 / (WEEKS - 2));
    // By hand: of 10 plants 8 are picked, and they take 8 x 10 + 2 x 5 = 90 days: 14 x 8/9 instead of 14 a week. After a death
    // the hole waits an eighth of a day on average for the next seed: a quarter of a day in 90.
    const theory = 14 * (8 / 9) - 14;
    const bias = 14 * (8 / 9) * (0.25 / 90);
    const half = (losses!.high! - losses!.low!) / 2;
    expect(half).toBeLessThan(0.05 * Math.abs(theory));
    expect(Math.abs(losses!.mean - theory)).toBeLessThan(2 * half + bias);
    expect(Object.values(others).map(({ mean }) => mean)).toEqual([0, 0, 0, 0, 0]);
  });

  test('losses: plants that wait for too long are thrown away', async () => {
    // Somebody is always there and nothing is in the way, but heads are wanted once in 14 days only: 1 in 10 days is ready.
    const wanted = { heads: 4, days: Array.from({ length: WEEKS / 2 }, (_, i) => 14 * i) };
    const keeping = full(1, grow(time(10), { keeps: 2 }), { want: wanted });
    const { losses, sown_or_wanted, visits, spread, cleaning, absence } = await stepsOf(keeping);
    expect(losses).toBeLessThan(-0.1);
    expect([sown_or_wanted, visits, spread, cleaning, absence]).toEqual([0, 0, 0, 0, 0]);
  });

  test('cleaning: a hole gives a head in its time and the days of cleaning', async () => {
    const { cleaning, batches, ...others } = await stepsOf(full(4, grow(time(10)), {}, 4));
    expect(Math.abs(batches)).toBeLessThan(4 / (WEEKS - 2));
    expect(Math.abs(cleaning - (2 - 2.8))).toBeLessThan(8 / (WEEKS - 2));
    expect(Object.values(others)).toEqual([0, 0, 0, 0, 0]);
  });

  test('absence: all that it costs, plants that overgrow meanwhile included, and not losses', async () => {
    // 4 holes of 10 days, somebody every day, each head keeps a day. Of 30 days without a visit from day 700 on: the round of 700 is
    // thrown away on 730, when the next is sown; those of 700, 710, 720 and 730 are missing.
    const days = Array.from({ length: 30 }, (_, i) => 700 + i);
    const { absence, losses, batches, ...others } = await stepsOf(
      full(4, grow(time(10), { keeps: 1 }), {
        visits: { ...withoutDays(visitDays(WEEKS), days), away: { days, visits: days } },
      }),
    );
    expect(absence).toBeCloseTo(-16 / (WEEKS - 2), 9);
    expect(Math.abs(batches)).toBeLessThan(4 / (WEEKS - 2));
    expect([losses, ...Object.values(others)]).toEqual([0, 0, 0, 0, 0]);
  });
});
