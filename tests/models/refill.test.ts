/** The refill rule on numbers worked by hand, and lines that live by it. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BLOCKED, HELD, PICKED, SHORT, SOWN, STATE_COUNT, UNSOWN, WANTED } from '../../sim/models/ledger.js';
import { Line } from '../../sim/models/line/line.js';
import type { CropPlan, Growing, Plan } from '../../sim/models/plan.js';
import { chancesToPick, meanStay, refills, seedsToRefill } from '../../sim/models/refill.js';
import { arbitraryPlan } from '../support/arbitrary-plan.js';
import { runOf } from '../support/laws.js';
import { crop, every, grow, line, stage, time, visitDays } from '../support/plans.js';
import { expectMean, replicate, Steady } from '../support/replications.js';

const refill: CropPlan['sowing'] = { kind: 'refill' };

/** 20, 30 and 40 holes; 5, 10 and 18 d; 8 of 10 seeds sprout, 1 of 10 seedlings is lost; finishing holes are cleaned. */
const plan = line(
  [stage('germination', 20), stage('nursery', 30), stage('finishing', 40, 2)],
  [
    crop([grow(time(5)), grow(time(10), { loss: 0.1 }), grow(time(18))], refill, {
      germination: 0.8,
    }),
  ],
  { weeks: 20 },
);
const leaf = plan.crops[0]!;

describe('the rule', () => {
  test('the chance of being picked, of a seed and of a plant that comes into each stage', () => {
    const chances = chancesToPick(leaf);
    expect(chances[0]).toBeCloseTo(0.72, 12);
    expect(chances[1]).toBeCloseTo(0.9, 12);
    expect(chances[2]).toBe(1);
  });

  test('the scarcest stage sets the rate: 20 x 0.72/5 = 2.88, 30 x 0.9/10 = 2.7, 40/(18 + 2) = 2 a day', () => {
    const [rule] = refills(plan);
    expect(rule!.rate).toBeCloseTo(2, 12);
    expect(rule!.stay).toBe(33);
    const wide = { ...plan, stages: [plan.stages[0]!, plan.stages[1]!, stage('finishing', 400, 2)] };
    expect(refills(wide)[0]!.rate).toBeCloseTo(2.7, 12);
  });

  test('waits for visits count: one a week adds 3.5 d to every stage', () => {
    const weekly: Plan = { ...plan, visits: visitDays(20, [1, 0, 0, 0, 0, 0, 0]) };
    expect([0, 1, 2].map((s) => meanStay(weekly, leaf, s))).toEqual([8.5, 13.5, 21.5]);
    const [rule] = refills(weekly);
    expect(rule!.stay).toBe(43.5);
    // 20 x 0.72/8.5 = 1.694, 30 x 0.9/13.5 = 2, 40/23.5 = 1.702.
    expect(rule!.rate).toBeCloseTo(14.4 / 8.5, 12);
  });

  test('cuts keep a hole longer: 3 cuts add two regrowths of 6 d', () => {
    const cut = { ...leaf, cuts: 3, regrow: grow(time(6)) };
    const [rule] = refills({ ...plan, crops: [cut] });
    expect(meanStay(plan, cut, 2)).toBe(30);
    expect(rule!.stay).toBe(45);
    expect(rule!.rate).toBeCloseTo(40 / 32, 12);
  });

  test('two refilled crops share every stage in equal parts', () => {
    const rules = refills({ ...plan, crops: [leaf, { ...leaf, name: 'other' }] });
    expect(rules.map((rule) => rule!.rate)).toEqual([expect.closeTo(1, 12), expect.closeTo(1, 12)]);
  });

  test('a crop with a cadence is served first, and has no refill of its own', () => {
    // One seed a day for 140 d, nothing lost: 5, 10 and 20 holes are gone; 15 x 0.72/5 = 2.16, 20 x 0.9/10 = 1.8, 20/20.
    const steady = crop([grow(time(5)), grow(time(10)), grow(time(18))], every(1, 140, 1), {
      name: 'steady',
    });
    const rules = refills({ ...plan, crops: [steady, leaf] });
    expect(rules[0]).toBeNull();
    expect(rules[1]!.rate).toBeCloseTo(1, 12);
  });

  test('no more than what is wanted: 35 heads on 4 of 140 days are 1 a day; a cadence may cover it all', () => {
    const want = { heads: 35, days: [20, 60, 100, 130] };
    expect(refills({ ...plan, want })[0]!.rate).toBeCloseTo(1, 12);
    const steady = crop(leaf.stages, every(1, 140, 1), { name: 'steady' });
    // The other crop gives 0.9 a day.
    expect(refills({ ...plan, want, crops: [steady, leaf] })[1]!.rate).toBeCloseTo(0.1, 12);
    const plenty = crop(leaf.stages, every(1, 140, 2), { name: 'plenty' });
    expect(refills({ ...plan, want, crops: [plenty, leaf] })[1]!.rate).toBe(0);
  });

  test('a plant of 2 cuts gives two of the heads that are wanted', () => {
    const want = { heads: 35, days: [20, 60, 100, 130] };
    const cut = { ...leaf, cuts: 2, regrow: grow(time(6)) };
    expect(refills({ ...plan, want, crops: [cut] })[0]!.rate).toBeCloseTo(0.5, 12);
  });

  test('a line that others fill already gets nothing', () => {
    const greedy = crop(leaf.stages, every(1, 140, 50), { name: 'greedy' });
    expect(refills({ ...plan, crops: [greedy, leaf] })[1]!.rate).toBe(0);
  });

  test.each([
    // 2 x 1 missing, 2 / 0.72 = 2.8
    { t: 0, gap: 1, standing: [0, 0, 0], seeds: 3 },
    // 2 x 12 - (0.72 x 3 + 0.9 x 10) = 12.84, / 0.72 = 17.8
    { t: 10, gap: 2, standing: [3, 10, 0], seeds: 18 },
    // 2 x 33 and no more, - (7.2 + 18 + 36) = 4.8, / 0.72 = 6.7
    { t: 90, gap: 1, standing: [10, 20, 36], seeds: 7 },
    // 0.72 missing is one seed exactly, in spite of rounding
    { t: 90, gap: 1, standing: [20, 31, 22.98], seeds: 1 },
    { t: 90, gap: 1, standing: [20, 30, 40], seeds: 0 },
  ])(
    'on day $t, $gap d to the next visit, with $standing standing: $seeds seeds',
    ({ t, gap, standing, seeds }) => {
      expect(seedsToRefill(refills(plan)[0]!, t, gap, (s) => standing[s]!)).toBe(seeds);
    },
  );

  test('a seed without any chance is not sown', () => {
    for (const hopeless of [
      { ...leaf, germination: 0 },
      { ...leaf, stages: leaf.stages.map((g) => ({ ...g, loss: 1 })) },
    ]) {
      const [rule] = refills({ ...plan, crops: [hopeless] });
      expect(seedsToRefill(rule!, 50, 1, () => 0)).toBe(0);
    }
  });
});

describe('lines that are refilled', () => {
  test('without luck, a balanced line takes in and gives exactly what its holes can pass on', () => {
    // 2 a day through 6, 28 and 48 holes of 3, 14 and 24 d.
    const balanced = line(
      [stage('germination', 6), stage('nursery', 28), stage('finishing', 48)],
      [crop([grow(time(3)), grow(time(14)), grow(time(24))], refill)],
      { weeks: 30 },
    );
    const { season, notes } = runOf(balanced);
    const perDay = (deed: string): Map<number, number> => {
      const days = new Map<number, number>();
      for (const note of notes) if (note.deed === deed) days.set(note.t, (days.get(note.t) ?? 0) + 1);
      return days;
    };
    const days = Array.from({ length: 210 }, (_, day) => day);
    expect(perDay('sow')).toEqual(new Map(days.map((day) => [day, 2])));
    expect(perDay('pick')).toEqual(new Map(days.slice(41).map((day) => [day, 2])));
    expect(season.ledger[BLOCKED]! + season.ledger[STATE_COUNT + BLOCKED]!).toBe(0);
  });

  test('without luck, an unbalanced line settles at the rate of its scarcest stage and nobody waits in front of it', () => {
    const narrow = line(
      [stage('germination', 30), stage('nursery', 60), stage('finishing', 36)],
      [crop([grow(time(3)), grow(time(14)), grow(time(24))], refill)],
      { weeks: 40 },
    );
    const window = new Steady(narrow, 10).run(0);
    // 36/24 = 1.5 a day: 1 or 2 seeds a day.
    expect(window.counts[PICKED]! / window.days).toBe(1.5);
    expect(window.counts[SOWN]! / window.days).toBe(1.5);
    // Whole seeds: what came a day early waits a day at most.
    expect(window.ledger[STATE_COUNT + BLOCKED]! / window.days).toBeLessThanOrEqual(0.5);
  });

  test('with a want it settles at what is wanted, far below what the line could do', () => {
    const wanted = line(
      [stage('germination', 30), stage('nursery', 80), stage('finishing', 160)],
      [crop([grow(time(3)), grow(time(14)), grow(time(24))], refill)],
      { weeks: 40, want: { heads: 2, days: Array.from({ length: 280 }, (_, day) => day) } },
    );
    const { season } = runOf(wanted);
    // Nothing can be ready before day 41, and from then on nothing is ever short, held or too much.
    expect(season.firstPick).toBe(41);
    expect(season.counts[WANTED]).toBe(560);
    expect(season.counts[SHORT]).toBe(2 * 41);
    expect(season.counts[SOWN]).toBe(560);
    expect(season.ledger[2 * STATE_COUNT + HELD]).toBe(0);
  });

  test('what was discarded is sown anew, and so is what has failed', () => {
    // One hole of 10 d: the rule asks for one plant. Nothing is wanted before day 34.
    const sowDays = (growing: Growing, germination: number): number[] =>
      runOf(
        line([stage('bed', 1)], [crop([growing], refill, { germination })], {
          weeks: 5,
          want: { heads: 35, days: [34] },
        }),
      )
        .notes.filter(({ t, deed }) => deed === 'sow' && t < 34)
        .map(({ t }) => t);
    // Ready on day 10, discarded on day 12.
    expect(sowDays(grow(time(10), { keeps: 2 }), 1)).toEqual([0, 12, 24]);
    // A seed that sprouts stands for ever, one that fails is seen to have failed after 10 d.
    expect(sowDays(grow(time(10)), 1)).toEqual([0]);
    expect(sowDays(grow(time(10)), 1e-9)).toEqual([0, 10, 20, 30]);
  });

  test('with luck and losses it gives nine tenths of what its holes can pass on, and never more than that', () => {
    const lucky: Plan = {
      ...plan,
      weeks: 100,
      stages: [stage('germination', 30), stage('nursery', 40), stage('finishing', 40, 2)],
      crops: [
        crop([grow(time(5, 0.1)), grow(time(10, 0.1), { loss: 0.1 }), grow(time(18, 0.1))], refill, {
          germination: 0.8,
        }),
      ],
    };
    const steady = new Steady(lucky, 12);
    const sample = replicate((season) => {
      const { counts, days } = steady.run(season);
      return counts[PICKED]! / days;
    });
    const rate = refills(lucky)[0]!.rate;
    expect(rate).toBeCloseTo(2, 12);
    expectMean(sample, sample.mean, 0.005);
    expect(sample.mean).toBeGreaterThan(0.9 * rate);
    expect(sample.mean).toBeLessThan(rate + 4 * sample.standardError);
  });

  test('no seed that a refill sows finds a full tray, and no more stands than the rule says', () => {
    const refilled = arbitraryPlan({ want: true }).map(
      (any): Plan => ({
        ...any,
        crops: any.crops.map((one) => ({ ...one, sowing: refill })),
      }),
    );
    fc.assert(
      fc.property(refilled, (any) => {
        const { season, notes } = runOf(any);
        expect(season.counts[UNSOWN]).toBe(0);
        const rules = refills(any);
        const standing = any.crops.map(() => new Array<number>(any.stages.length).fill(0));
        const cutsLeft = new Map<number, number>();
        for (const { deed, plant, crop, stage } of notes) {
          const mine = standing[crop]!;
          if (deed === 'sow') {
            mine[0]!++;
            cutsLeft.set(plant, any.crops[crop]!.cuts);
            const { rate, stay, chances } = rules[crop]!;
            const expected = chances.reduce((sum, chance, s) => sum + chance * mine[s]!, 0);
            // Up to a whole seed more, because seeds are whole.
            if (!(expected <= rate * stay + chances[0]! + 1e-9))
              throw new Error(`${expected} > ${rate * stay}`);
          } else if (deed === 'move') {
            mine[stage - 1]!--;
            mine[stage]!++;
          } else if (deed === 'die' || deed === 'fail' || deed === 'discard') mine[stage]!--;
          else if (deed === 'pick') {
            cutsLeft.set(plant, cutsLeft.get(plant)! - 1);
            if (cutsLeft.get(plant) === 0) mine[stage]!--;
          }
        }
      }),
      { seed: 5, numRuns: 100 },
    );
  });

  test('with somebody always there it is looked at once a day, with visit days on every visit', () => {
    const one = (rest: Partial<Plan>): number[] => {
      const small = line([stage('tray', 50)], [crop([grow(time(10))], refill)], { weeks: 2, ...rest });
      const days: number[] = [];
      new Line(small).run(1, 0, {
        onEvent(t, deed) {
          if (deed === 'sow' && days.at(-1) !== t) days.push(t);
        },
      });
      return days;
    };
    expect(one({})).toEqual(Array.from({ length: 14 }, (_, day) => day));
    expect(one({ visits: visitDays(2, [1, 0, 0, 1, 0, 0, 0]) })).toEqual([0, 3, 7, 10]);
  });

  test.each([8, 20, 41])(
    'with heads wanted once a week a plant of %d days is there when it is wanted',
    (days) => {
      const wanted = Array.from({ length: 52 }, (_, week) => 7 * week + 4);
      const weekly = line([stage('hole', 1000)], [crop([grow(time(days))], refill)], {
        weeks: 52,
        want: { heads: 14, days: wanted },
      });
      const { weekPicks } = new Line(weekly).run(1, 0);
      // The first plants are ready after `days`; the week in which they come is gathered only in part.
      const first = Math.ceil((days - 4) / 7) + 1;
      expect([...weekPicks.subarray(first)]).toEqual(new Array(52 - first).fill(14));
    },
  );
});
