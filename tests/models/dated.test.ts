/** Growth times that change by date: worked by hand, counted day by day, and never earlier where it is slower. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { GrowthClock } from '../../sim/models/growth-clock.js';
import { Line } from '../../sim/models/line/line.js';
import type { Growing, GrowthSpell, Plan } from '../../sim/models/plan.js';
import { arbitraryPlan } from '../support/arbitrary-plan.js';
import { always, crop, grow, line, stage, time, visitDays } from '../support/plans.js';
import { recordSeason } from '../support/stays.js';

/** Days 10 to 19: everything takes a quarter longer. */
const SLOW: readonly GrowthSpell[] = [{ from: 10, beyond: 20, times: 1.25 }];
/** The same days: twice as fast. */
const FAST: readonly GrowthSpell[] = [{ from: 10, beyond: 20, times: 0.5 }];

const sown = (...days: number[]) => ({ kind: 'due', days, seeds: 1 }) as const;

/** One plant, and nobody ever in its way. */
function alone(growings: readonly Growing[], day: number, rest: Partial<Plan> = {}, more = {}): Plan {
  return line(
    growings.map((_, s) => stage(`stage ${s}`, 5)),
    [crop(growings, sown(day), more)],
    { weeks: 12, visits: always, ...rest },
  );
}

/** When the growth of each of its stays ended, and how [d]. */
function endsOf(plan: Plan): (readonly [at: number, how: string | null])[] {
  return recordSeason(plan, 1).stays.map(({ grownUntil, grew }) => [grownUntil, grew] as const);
}

describe('worked by hand', () => {
  test.each([
    // Day 4 to 10 brings 6 of 10; of the slow spell 4 x 1.25 = 5 days are needed.
    ['a stay that goes into a slow spell', 4, 10, SLOW, 15],
    // Day 9 brings 1, the ten days of the spell bring 8, so 3 are left for the days from 20 on.
    ['a stay right across it', 9, 12, SLOW, 23],
    // From day 18 on 2 / 1.25 = 1.6; 3.4 are left.
    ['a stay that begins in it', 18, 5, SLOW, 23.4],
    // Wholly in it: 4 x 1.25.
    ['a stay within it', 12, 4, SLOW, 17],
    // On the day the spell begins, and one that ends as it begins.
    ['a stay that begins with it', 10, 8, SLOW, 20],
    ['a stay that ends as it begins', 4, 6, SLOW, 10],
    // Days 4 to 10 bring 6, then 4 x 0.5.
    ['a stay that goes into a fast spell', 4, 10, FAST, 12],
    // 1, then 20 in ten days, then 4.
    ['a stay right across that', 9, 25, FAST, 24],
    // Two spells that touch: 2 days, then 4/2 = 2 of growth, then 6/0.5 = 12, then 1 more.
    [
      'two spells that touch',
      8,
      17,
      [
        { from: 10, beyond: 14, times: 2 },
        { from: 14, beyond: 20, times: 0.5 },
      ],
      21,
    ],
    ['a spell that began before the season', 0, 4, [{ from: -30, beyond: 5, times: 2 }], 6.5],
  ] as const)('%s', (_, day, days, spells, ready) => {
    const [[at, how]] = endsOf(alone([grow(time(days), { spells })], day)) as [readonly [number, string]];
    expect(how).toBe('ready');
    // Half a tick of the grid of time.
    expect(Math.abs(at - ready)).toBeLessThanOrEqual(2 ** -25);
  });

  test('each stage goes by its own spells, and a stage without any by none', () => {
    const plan = alone([grow(time(6), { spells: SLOW }), grow(time(6)), grow(time(6), { spells: FAST })], 6);
    // 4 + 2 x 1.25 = until 12.5; 6 without spell until 18.5; 1.5 days bring 3, the other 3 from day 20 on.
    expect(endsOf(plan)).toEqual([
      [12.5, 'ready'],
      [18.5, 'ready'],
      [23, 'ready'],
    ]);
  });

  test('growth after a cut goes by date too', () => {
    const regrow = grow(time(5), { spells: SLOW });
    const plan = alone([grow(time(8))], 0, {}, { cuts: 3, regrow });
    // Cut on day 8: 2 + 3 x 1.25 until 13.75; then 5 x 1.25 = 6.25 until day 20.
    expect(endsOf(plan)).toEqual([
      [8, 'ready'],
      [13.75, 'ready'],
      [20, 'ready'],
    ]);
  });

  test('a seed that fails keeps its cell for as long, and a plant that dies does so after a share of its growth', () => {
    const fails = alone([grow(time(10), { spells: SLOW })], 4, {}, { germination: 0 });
    expect(endsOf(fails)).toEqual([[15, 'failed']]);
    const dies = alone([grow(time(10), { spells: SLOW, loss: 1 })], 4);
    const usual = alone([grow(time(10), { loss: 1 })], 4);
    const [[at, how]] = endsOf(dies) as [readonly [number, string]];
    const share = (endsOf(usual)[0]![0] - 4) / 10;
    expect(how).toBe('dead');
    const grown = 10 * share;
    expect(at).toBeCloseTo(grown <= 6 ? 4 + grown : 10 + (grown - 6) * 1.25, 6);
  });

  test('keeping counts days as they are, and so does cleaning', () => {
    const growing = grow(time(8), { spells: SLOW, keeps: 3 });
    const { stages, crops, ...rest } = alone([growing, grow(time(30))], 2, { visits: visitDays(12) });
    const narrow: Plan = {
      ...rest,
      stages: [{ ...stages[0]!, holesPerChannel: 7, cleanDays: 4 }, stages[1]!],
      crops: [{ ...crops[0]!, sowing: { kind: 'due', days: [2, 13, 14], seeds: 7 } }],
    };
    // Ready on day 10; five move on. Of the two others day 14 is the first on which they have been ready for more than 3 days.
    const { stays } = recordSeason(narrow, 1);
    expect(stays.filter(({ ended }) => ended === 'moved')).toHaveLength(5);
    const thrown = stays.filter(({ ended, until }) => ended === 'discarded' && until < 20);
    expect(thrown.map(({ until }) => until)).toEqual([14, 14]);
    // Five holes are clean on day 14, in the midst of the spell.
    expect(stays.filter(({ stage: s, from }) => s === 0 && from > 2).map(({ from }) => from)).toEqual(
      new Array(5).fill(14),
    );
  });

  test('who is away sees what is ready when back: a spell does not move visits', () => {
    const days = [...Array(84).keys()].filter((day) => day < 12 || day > 25);
    const plan = alone([grow(time(8), { spells: SLOW })], 4, { visits: { kind: 'days', days } });
    const [stay] = recordSeason(plan, 1).stays;
    expect([stay!.grownUntil, stay!.until]).toEqual([12.5, 26]);
  });
});

const arbitrarySpells: fc.Arbitrary<GrowthSpell[]> = fc
  .array(
    fc.record({
      gap: fc.integer({ min: 0, max: 9 }),
      days: fc.integer({ min: 1, max: 20 }),
      times: fc.double({ min: 0.5, max: 2, noNaN: true }),
    }),
    { minLength: 1, maxLength: 5 },
  )
  .map((told) => {
    let day = -10;
    return told.map(({ gap, days, times }) => {
      const from = day + gap;
      day = from + days;
      return { from, beyond: day, times };
    });
  });

/** Growth from one time to another, day by day. */
function grownDayByDay(spells: readonly GrowthSpell[], from: number, to: number): number {
  let sum = 0;
  for (let day = Math.floor(from); day < to; day++) {
    const times = spells.find((spell) => day >= spell.from && day < spell.beyond)?.times ?? 1;
    sum += (Math.min(day + 1, to) - Math.max(day, from)) / times;
  }
  return sum;
}

describe('the clock of growth', () => {
  const from = fc.double({ min: -5, max: 60, noNaN: true });
  const growth = fc.double({ min: 0.01, max: 60, noNaN: true });

  test('growth is what the days bring one by one, and as long as it takes it back', () => {
    const law = fc.property(arbitrarySpells, from, growth, (spells, start, amount) => {
      const clock = new GrowthClock(spells);
      const days = clock.daysFor(start, amount);
      // Some hundred sums of doubles below 200.
      expect(Math.abs(grownDayByDay(spells, start, start + days) - amount)).toBeLessThanOrEqual(1e-11);
      expect(Math.abs(clock.growth(start, start + days) - amount)).toBeLessThanOrEqual(1e-11);
      expect(Math.abs(clock.daysBefore(start + days, amount) - days)).toBeLessThanOrEqual(1e-11);
      expect(clock.growth(start + days, start)).toBe(-clock.growth(start, start + days));
    });
    fc.assert(law, { seed: 20270801, numRuns: 300 });
  });

  test('slower on any day is never ready earlier', () => {
    const slower = fc.array(fc.double({ min: 1, max: 2, noNaN: true }), { minLength: 5, maxLength: 5 });
    const law = fc.property(arbitrarySpells, slower, from, growth, (spells, more, start, amount) => {
      const slow = spells.map((spell, i) => ({ ...spell, times: spell.times * more[i]! }));
      const [usual, later] = [spells, slow].map((some) => new GrowthClock(some).daysFor(start, amount));
      expect(later).toBeGreaterThanOrEqual(usual! - 1e-11);
    });
    fc.assert(law, { seed: 20270801, numRuns: 300 });
  });
});

describe('on any line', () => {
  const season = (plan: Plan) => {
    const { counts, ledger, weekPicks } = new Line(plan).run(plan.seed, 0);
    return { counts: [...counts], ledger: [...ledger], weekPicks: [...weekPicks] };
  };
  const spelled = (plan: Plan, spells: readonly GrowthSpell[]): Plan => ({
    ...plan,
    crops: plan.crops.map((one) => ({
      ...one,
      stages: one.stages.map((growing) => ({ ...growing, spells })),
      regrow: one.regrow && { ...one.regrow, spells },
    })),
  });

  test('a spell after the season, and one that changes nothing, leave every digit as it is', () => {
    const law = fc.property(arbitraryPlan(), (plan) => {
      const usual = season(plan);
      expect(season(spelled(plan, [{ from: 400, beyond: 500, times: 2 }]))).toEqual(usual);
      expect(season(spelled(plan, [{ from: 3, beyond: 9, times: 1 }]))).toEqual(usual);
    });
    fc.assert(law, { seed: 20270801, numRuns: 60 });
  });

  test('a spell of the whole season is the same as days that are so much longer, digit by digit', () => {
    const law = fc.property(arbitraryPlan(), fc.constantFrom(0.625, 0.9, 1.3, 1.75), (plan, times) => {
      const longer = (growing: Growing): Growing => ({
        ...growing,
        time: {
          ...growing.time,
          days: growing.time.days * times,
          times: growing.time.times.map((days) => days * times),
        },
      });
      const usual: Plan = {
        ...plan,
        crops: plan.crops.map((one) => ({
          ...one,
          // A refill goes by the usual days (docs/how-the-line-behaves.md).
          sowing: one.sowing.kind === 'refill' ? sown(0, 5) : one.sowing,
          stages: one.stages.map(longer),
          regrow: one.regrow && longer(one.regrow),
        })),
      };
      const told: Plan = {
        ...plan,
        crops: plan.crops.map((one, c) => ({ ...one, sowing: usual.crops[c]!.sowing })),
      };
      expect(season(spelled(told, [{ from: -9, beyond: 600, times }]))).toEqual(season(usual));
    });
    fc.assert(law, { seed: 20270801, numRuns: 60 });
  });
});
