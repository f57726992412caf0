import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Moments } from '../../../sim/engine/tally.js';
import { PICKED, WANTED } from '../../../sim/models/ledger.js';
import { Line } from '../../../sim/models/line/line.js';
import type { CropPlan, GrowthTime, Plan } from '../../../sim/models/plan.js';
import { holesOf, seasonDays } from '../../../sim/models/plan.js';
import { fluidBound } from '../../../sim/study/size/bound.js';
import { arbitraryPlan, type Limits } from '../../support/arbitrary-plan.js';
import { always, crop, every, grow, line, stage, time } from '../../support/plans.js';
import { expectMean, replicate, Steady, WITHIN } from '../../support/replications.js';
import { fluidSplit } from '../../support/tandem.js';

const WEEKS = 26;
const DAYS = 7 * WEEKS;

/** 4, 6 and 8 holes for plants that need 3, 14 and 24 d; sown far more than enough. */
function threeStages(rest: Partial<CropPlan> = {}, plan: Partial<Plan> = {}): Plan {
  return line(
    [stage('germination', 4), stage('nursery', 6), stage('finishing', 8)],
    [crop([grow(time(3)), grow(time(14)), grow(time(24))], every(1, DAYS, 10), rest)],
    { weeks: WEEKS, ...plan },
  );
}

test('growth by date counts by the season’s mean pace: half of it twice as fast is half as much again', () => {
  const spells = [{ from: DAYS / 2, beyond: DAYS, times: 0.5 }];
  const plan = line([stage('bed', 8)], [crop([grow(time(10), { spells })], every(1, DAYS, 10))], {
    weeks: WEEKS,
  });
  expect(fluidBound(plan).heads_a_week).toBeCloseTo(1.5 * 8 * 0.7, 12);
  // Always tended, full from the first day on: what is picked is that but for what stands at the end and rounding down.
  const picked = new Line(plan).run(1, 0).counts[PICKED]!;
  expect(picked).toBeLessThanOrEqual(1.5 * 8 * 0.7 * WEEKS);
  expect(picked).toBeGreaterThan(1.5 * 8 * 0.7 * WEEKS - 2 * 8);
});

describe('holes and times', () => {
  test('allow the least of holes / days: 4/3, 6/14 and 8/24 a day', () => {
    const bound = fluidBound(threeStages());
    expect(bound.pure).toEqual({ heads_a_week: expect.closeTo(7 / 3, 12), by: 'finishing' });
    expect(bound.with_losses).toEqual(bound.pure);
    expect(bound.with_cleaning).toEqual(bound.pure);
    expect(bound.stages).toEqual([
      { name: 'germination', heads_a_week: expect.closeTo(28 / 3, 12) },
      { name: 'nursery', heads_a_week: expect.closeTo(3, 12) },
      { name: 'finishing', heads_a_week: expect.closeTo(7 / 3, 12) },
    ]);
    expect(bound).toMatchObject({
      sowing: 70,
      want: null,
      heads_a_week: bound.pure.heads_a_week,
      by: 'finishing',
    });
  });

  test('allow the same in every stage when the area is split in proportion to time x area per plant', () => {
    // 82.3 m2 are 100 plants a day: 300, 1400 and 2400 holes.
    const densities = [1000, 200, 32];
    const stages = [3, 14, 24].map((days, i) => ({ days, density: densities[i]!, survival: 1 }));
    const { rate, holes } = fluidSplit(82.3, stages);
    const plan = line(
      holes.map((count, i) => stage(`stage ${i + 1}`, Math.round(count))),
      [crop([grow(time(3)), grow(time(14)), grow(time(24))], every(1, DAYS, 1000))],
      { weeks: WEEKS },
    );
    const bound = fluidBound(plan);
    for (const { heads_a_week } of bound.stages) expect(heads_a_week).toBeCloseTo(7 * rate, 9);
    // Of equals the first is named.
    expect(bound).toMatchObject({ heads_a_week: 700, by: 'stage 1' });
  });
});

describe('by hand', () => {
  /** One stage of 12 holes behind one that never holds anybody up. */
  const lossy = line(
    [stage('tray', 1000), stage('finishing', 12, 1)],
    [
      crop(
        [grow(time(2 ** -20)), grow(time(10, 0.2), { loss: 0.2 })],
        { kind: 'due', days: [0], seeds: 1000 },
        {
          cuts: 3,
          regrow: grow(time(4, 0.2), { loss: 0.1 }),
        },
      ),
    ],
    { weeks: 60 },
  );

  test('plants that die take half of their days, and dead ones give no further cuts', () => {
    // A plant takes 10 x 0.9 + 0.8 x 4 x 0.95 + 0.8 x 0.9 x 4 x 0.95 d and gives 0.8 (1 + 0.9 + 0.81) heads.
    const bound = fluidBound(lossy);
    expect(bound.pure.heads_a_week).toBeCloseTo((7 * 12 * 3) / 18, 10);
    expect(bound.with_losses.heads_a_week).toBeCloseTo((7 * 12 * 2.168) / 14.776, 10);
  });

  test('each plant that leaves a hole costs its days of cleaning', () => {
    expect(fluidBound(lossy).with_cleaning).toEqual({
      heads_a_week: expect.closeTo((7 * 12 * 2.168) / 15.776, 10),
      by: 'finishing',
    });
  });

  test('and a line whose holes are never short of plants gives just that', () => {
    const weeks = 400;
    const plan = {
      ...lossy,
      weeks,
      stages: [stage('tray', 12_000), lossy.stages[1]!],
      crops: [{ ...lossy.crops[0]!, sowing: { kind: 'due' as const, days: [0], seeds: 12_000 } }],
    };
    const warmup = 40;
    const steady = new Steady(plan, warmup);
    const picks = replicate((season) => steady.run(season).counts[PICKED]! / (weeks - warmup));
    expectMean(picks, (7 * 12 * 2.168) / 15.776, 0.005);
  });

  test('seeds that fail hold their cell for their whole time; what comes in is cleaned after', () => {
    // Half of the seeds fail, a fifth of the seedlings dies, a tenth of the finishing plants.
    const plan = line(
      [stage('tray', 10, 2), stage('finishing', 40, 1)],
      [
        crop([grow(time(5), { loss: 0.2 }), grow(time(20), { loss: 0.1 })], every(1, DAYS, 50), {
          germination: 0.5,
        }),
      ],
      { weeks: WEEKS },
    );
    // A seed takes 0.5 x 5 + 0.5 x 5 x 0.9 d of the tray and 2 d of cleaning; 0.4 of a plant takes 20 x 0.95
    // + 1 d further on. It gives 0.5 x 0.8 x 0.9 heads.
    expect(fluidBound(plan).with_losses.heads_a_week).toBeCloseTo((70 * 0.36) / 4.75, 10);
    expect(fluidBound(plan).stages).toEqual([
      { name: 'tray', heads_a_week: expect.closeTo((70 * 0.36) / 6.75, 10) },
      { name: 'finishing', heads_a_week: expect.closeTo((280 * 0.36) / (0.4 * 20), 10) },
    ]);
    expect(fluidBound(plan).sowing).toBeCloseTo(350 * 0.36, 10);
  });

  test('a tray half of whose seeds fail, filled whenever a cell is free, gives just that', () => {
    // 10 cells of 5 d: 2 seeds a day, 1 head. Times lie on the quarters of a day at which seeds are due.
    const plan = line(
      [stage('tray', 10)],
      [crop([grow(time(5))], every(0.25, DAYS, 10), { germination: 0.5 })],
      { weeks: WEEKS },
    );
    expect(fluidBound(plan)).toMatchObject({ heads_a_week: 7, by: 'tray' });
    const simulator = new Line(plan);
    // Picked on days 5, 10, .. 180 of 182: 36 rounds of 10 seeds, half of which sprout.
    expectMean(
      replicate((season) => simulator.run(plan.seed, season).counts[PICKED]!),
      180,
      0.02,
    );
  });

  test('a crop none of whose plants live gives nothing', () => {
    const dead = fluidBound(threeStages({ germination: 0 }));
    expect(dead.pure.heads_a_week).toBeCloseTo(7 / 3, 12);
    expect(dead).toMatchObject({ heads_a_week: 0, sowing: 0 });
    expect(dead.stages.map(({ heads_a_week }) => heads_a_week)).toEqual([0, 0, 0]);
  });
});

describe('what is sown and what is wanted', () => {
  test('bound the heads too: 2 seeds on each of 26 Mondays, 9 of 10 of which live', () => {
    const bound = fluidBound(threeStages({ germination: 0.9, sowing: every(7, DAYS, 2) }));
    expect(bound).toMatchObject({
      sowing: expect.closeTo(1.8, 12),
      heads_a_week: expect.closeTo(1.8, 12),
      by: 'sowing',
    });
  });

  test('seeds that fall due after the end are not sown', () => {
    const bound = fluidBound(threeStages({ sowing: every(7, 2 * DAYS, 2) }));
    expect(bound.sowing).toBeCloseTo(2, 12);
  });

  test('and if all do, holes and times allow what they allow', () => {
    const bound = fluidBound(threeStages({ sowing: { kind: 'due', days: [DAYS], seeds: 5 } }));
    expect(bound.with_cleaning).toEqual({ heads_a_week: expect.closeTo(7 / 3, 12), by: 'finishing' });
    expect(bound).toMatchObject({ sowing: 0, heads_a_week: 0, by: 'sowing' });
  });

  test('every cut is a head', () => {
    const bound = fluidBound(threeStages({ cuts: 3, regrow: grow(time(7)), sowing: every(7, DAYS, 1) }));
    expect(bound.sowing).toBeCloseTo(3, 12);
    // 4 x 3 / 3, 6 x 3 / 14, and 8 x 3 / (24 + 7 + 7) heads a day.
    expect(bound.pure).toEqual({ heads_a_week: expect.closeTo((7 * 24) / 38, 12), by: 'finishing' });
    expect(bound.stages.map(({ heads_a_week }) => heads_a_week)).toEqual([
      expect.closeTo(28, 12),
      expect.closeTo(9, 12),
      expect.closeTo((7 * 24) / 38, 12),
    ]);
  });

  test('one head wanted on Mondays is one a week', () => {
    const want = { heads: 1, days: Array.from({ length: WEEKS }, (_, week) => 7 * week) };
    expect(fluidBound(threeStages({}, { want }))).toMatchObject({ want: 1, heads_a_week: 1, by: 'want' });
  });

  test('a crop that is sown to refill is not bounded by its sowing', () => {
    const bound = fluidBound(threeStages({ sowing: { kind: 'refill' } }));
    expect(bound).toMatchObject({ sowing: null, by: 'finishing', heads_a_week: expect.closeTo(7 / 3, 12) });
  });
});

describe('several crops', () => {
  test('with cadences share the holes as they are sown', () => {
    // A day brings 2 seeds of 5 d and 1 of 8 d: 18 hole-days for 3 heads, so 12 holes give 2 a day.
    const plan = line(
      [stage('finishing', 12)],
      [
        crop([grow(time(5))], every(1, DAYS, 2), { name: 'quick' }),
        crop([grow(time(8))], every(1, DAYS, 1), { name: 'slow' }),
      ],
      { weeks: WEEKS },
    );
    expect(fluidBound(plan)).toMatchObject({
      sowing: 21,
      heads_a_week: expect.closeTo(14, 12),
      by: 'finishing',
    });
  });

  test('that are refilled have equal parts of the holes', () => {
    // 6 holes each: 6/5 and 6/8 heads a day.
    const plan = line(
      [stage('finishing', 12)],
      [
        crop([grow(time(5))], { kind: 'refill' }, { name: 'quick' }),
        crop([grow(time(8))], { kind: 'refill' }, { name: 'slow' }),
      ],
      { weeks: WEEKS },
    );
    expect(fluidBound(plan)).toMatchObject({
      sowing: null,
      heads_a_week: expect.closeTo(7 * (6 / 5 + 6 / 8), 12),
    });
  });

  test('that are refilled have them for what they sow, not for what they give', () => {
    // Half of the quick seeds fail: 6 holes take 6/5 of them a day for 3/5 heads.
    const plan = line(
      [stage('finishing', 12)],
      [
        crop([grow(time(5))], { kind: 'refill' }, { name: 'quick', germination: 0.5 }),
        crop([grow(time(8))], { kind: 'refill' }, { name: 'slow' }),
      ],
      { weeks: WEEKS },
    );
    expect(fluidBound(plan).heads_a_week).toBeCloseTo(7 * (3 / 5 + 6 / 8), 12);
  });

  test('one of which dies take its holes from the other', () => {
    const plan = line(
      [stage('finishing', 12)],
      [
        crop([grow(time(6))], every(1, DAYS, 1), { name: 'good' }),
        crop([grow(time(6))], every(1, DAYS, 1), { name: 'bad', germination: 0 }),
      ],
      { weeks: WEEKS },
    );
    // Half of 12 / 6 seeds a day sprout; but no more than the one good seed a day.
    expect(fluidBound(plan)).toMatchObject({ heads_a_week: 7, sowing: 7 });
  });
});

/*
 * Plants wait outside in a stage that takes no time. The n-th is picked at the latest on day sum S + (n - 1)
 * / X, X the least of c / S: on a way back through the schedule every step past c plants of a stage costs its
 * S. And the scarcest stage works for picks between the days on which the first plant can come and the last
 * one can leave for its pick: at most c a turn, and as many again for the turn that is cut.
 */
test.each([
  { holes: [6, 24, 36], times: [3, 14, 24] },
  { holes: [8, 16, 30], times: [3, 14, 24] },
  { holes: [2, 5, 9], times: [3, 14, 24] },
  { holes: [3, 14, 24], times: [3, 14, 24] },
  { holes: [7, 3], times: [4, 2.5] },
  { holes: [5], times: [9] },
])(
  'without luck and waiting, $holes holes of $times d reach the bound to within the edges of a season',
  (row) => {
    const weeks = 104;
    const outside = 2 ** -20;
    const seeds = 7 * weeks * 3;
    const plan = line(
      [stage('outside', seeds), ...row.holes.map((c, i) => stage(`stage ${i + 1}`, c))],
      [
        crop([grow(time(outside)), ...row.times.map((days) => grow(time(days)))], {
          kind: 'due',
          days: [0],
          seeds,
        }),
      ],
      { weeks },
    );
    const { pure, by, heads_a_week } = fluidBound(plan);
    expect(by).toBe(pure.by);
    const picks = new Line(plan).run(1, 0).counts[PICKED]!;
    const onTheWay = row.times.reduce((sum, days) => sum + days, outside);
    const most = (heads_a_week / 7) * (7 * weeks - onTheWay);
    const scarce = holesOf(plan.stages.find(({ name }) => name === by)!);
    expect(picks).toBeGreaterThanOrEqual(Math.floor(most));
    expect(picks).toBeLessThanOrEqual(most + scarce);
  },
);

/*
 * Why no line gives more. Whatever the rules do, they do not know the draws of a plant before it comes into a
 * stage. So (Wald's identity) of the plants that come into stage s the mean hold is B days and the mean
 * number of heads at most H, B and H as in the bound, however many come. In a season of T days they hold the
 * stage for at most holes x T days, and those that stand at the end for at most M more, M the longest hold of
 * one plant: mean heads <= holes (T + M) H / B = bound x (T + M). Overgrown plants that are thrown away only
 * lose heads. One crop: with several, plants that find no hole change the mix.
 */
describe('arbitrary lines', () => {
  const SEED = 20270104;
  const SEASONS = 32;

  function onEveryPlan(law: (plan: Plan) => void, limits: Limits): void {
    fc.assert(fc.property(arbitraryPlan({ onGrid: true, crops: 1, ...limits }), law), {
      seed: SEED,
      numRuns: 150,
    });
  }

  /**
   * The same line with seeds for every cell four times a day, somebody always there and all that is ready
   * picked.
   */
  function drivenHard(plan: Plan): Plan {
    const weeks = 20;
    const sowing = every(0.25, 7 * weeks, holesOf(plan.stages[0]!));
    return {
      ...plan,
      weeks,
      visits: always,
      want: null,
      crops: plan.crops.map((grown) => ({ ...grown, sowing })),
    };
  }

  const longest = ({ days, times }: GrowthTime): number => Math.max(days, ...times);
  const shortest = ({ days, times }: GrowthTime): number => Math.min(days, ...times);

  function longestHold(plan: Plan, s: number): number {
    const { stages, cuts, regrow } = plan.crops[0]!;
    const cutting = s === stages.length - 1 && regrow !== null ? (cuts - 1) * longest(regrow.time) : 0;
    return longest(stages[s]!.time) + cutting + plan.stages[s]!.cleanDays;
  }

  function picksOf(plan: Plan): Moments {
    const simulator = new Line(plan);
    const picks = new Moments();
    for (let season = 0; season < SEASONS; season++)
      picks.add(simulator.run(plan.seed, season).counts[PICKED]!);
    return picks;
  }

  /**
   * Heads of a plan as a part of what its scarcest stage allows; asserts that it is no more than 1 for any
   * stage.
   */
  function partOfAllowed(plan: Plan): number {
    const picks = picksOf(plan);
    const surely = picks.mean - WITHIN * picks.standardError;
    let most = 0;
    fluidBound(plan).stages.forEach(({ heads_a_week }, s) => {
      const allowed = (heads_a_week / 7) * (seasonDays(plan) + longestHold(plan, s));
      expect(surely).toBeLessThanOrEqual(allowed * (1 + 1e-12));
      if (allowed > 0) most = Math.max(most, picks.mean / allowed);
    });
    return most;
  }

  test('give no more heads on average than each stage allows, and what stands at the end', () =>
    onEveryPlan((plan) => {
      partOfAllowed(plan);
    }, {}));

  test('neither do they when they are driven hard, and then they often come near', () => {
    let near = 0;
    onEveryPlan((plan) => {
      if (partOfAllowed(drivenHard(plan)) > 0.75) near++;
    }, {});
    // Or the law would say little.
    expect(near).toBeGreaterThan(50);
  });

  test('give no more heads on average than what is sown brings, and want what the bound says', () => {
    let near = 0;
    onEveryPlan((plan) => {
      const { sowing, want } = fluidBound(plan);
      const picks = picksOf(plan);
      if (sowing !== null) {
        expect(picks.mean - WITHIN * picks.standardError).toBeLessThanOrEqual(
          sowing * plan.weeks * (1 + 1e-12),
        );
        if (picks.mean > 0.5 * sowing * plan.weeks) near++;
      }
      if (want !== null) expect(new Line(plan).run(1, 0).counts[WANTED]).toBeCloseTo(want * plan.weeks, 9);
    }, {});
    expect(near).toBeGreaterThan(10);
  });

  test('give in no season more than the bound of their shortest times', () => {
    // Each plant that is picked has held a hole of every stage for the shortest time: no luck is left in
    // this.
    let near = 0;
    onEveryPlan(
      (plan) => {
        const hard = drivenHard(plan);
        const fast: Plan = {
          ...hard,
          crops: hard.crops.map((grown) => ({
            ...grown,
            stages: grown.stages.map((growing) => grow(time(shortest(growing.time)))),
          })),
        };
        const allowed = (fluidBound(fast).pure.heads_a_week / 7) * seasonDays(hard);
        const picks = new Line(hard).run(plan.seed, 0).counts[PICKED]!;
        expect(picks).toBeLessThanOrEqual(allowed * (1 + 1e-12));
        if (picks > 0.75 * allowed) near++;
      },
      { cuts: false },
    );
    expect(near).toBeGreaterThan(10);
  });

  test('of a crop that is written down twice have the bound of twice the seeds', () => {
    onEveryPlan((plan) => {
      const twice = fluidBound({ ...plan, crops: [...plan.crops, { ...plan.crops[0]!, name: 'again' }] });
      const { pure, stages, sowing } = fluidBound(plan);
      expect(twice.pure.heads_a_week).toBeCloseTo(pure.heads_a_week, 9);
      twice.stages.forEach(({ heads_a_week }, s) => {
        expect(heads_a_week).toBeCloseTo(stages[s]!.heads_a_week, 9);
      });
      if (sowing !== null) expect(twice.sowing).toBeCloseTo(2 * sowing, 9);
    }, {});
  });

  test('are not held to more by losses or by cleaning', () => {
    onEveryPlan(
      (plan) => {
        const { pure, with_losses, with_cleaning, heads_a_week } = fluidBound(plan);
        expect(with_losses.heads_a_week).toBeLessThanOrEqual(pure.heads_a_week * (1 + 1e-12));
        expect(with_cleaning.heads_a_week).toBeLessThanOrEqual(with_losses.heads_a_week);
        expect(heads_a_week).toBeLessThanOrEqual(with_cleaning.heads_a_week);
      },
      { cuts: false },
    );
  });
});
