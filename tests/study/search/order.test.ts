import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Candidate,
  type CostKind,
  costOf,
  priceSizes,
  rank,
} from '../../../sim/study/search/candidates.js';
import { toJudge } from '../../../sim/study/search/order.js';
import type { GoalVerdict } from '../../../sim/study/search/sequential-test.js';
import { crop, every, grow, line, stage, time } from '../../support/plans.js';

/** A line of two stages with so many holes, whose areas are known if they are given [cm2]. */
function candidate(
  name: string,
  [first, second]: readonly [number, number],
  seedsAWeek: number | null,
  visitsAWeek: number | null = 3,
  areas: readonly [number, number] | null = null,
): Candidate {
  const stages = [stage('nursery', first), stage('finishing', second)].map((one, s) => ({
    ...one,
    holeAreaCm2: areas === null ? null : areas[s]!,
  }));
  const plan = line(stages, [crop([grow(time(7)), grow(time(7))], every(7, 28, 1))], { weeks: 4 });
  return { name, settings: {}, plan, seedsAWeek, visitsAWeek };
}

function order(candidates: readonly Candidate[], least: CostKind): string[] {
  return rank(candidates, least).map(({ candidate: { name } }) => name);
}

describe('what a plan costs', () => {
  test('its holes, its seeds and visits a week', () => {
    expect(costOf(candidate('a', [24, 72], 70 / 3, 2))).toEqual({
      holes: 96,
      seeds_a_week: 23.3333333333,
      lit_m2: null,
      visits_a_week: 2,
    });
  });

  test('its area under lamps, where the area of a hole is known in every stage', () => {
    // 48 x 100 cm2 + 72 x 400 cm2 = 33 600 cm2.
    expect(costOf(candidate('a', [48, 72], 20, 3, [100, 400])).lit_m2).toBe(3.36);
  });

  test('seeds that differ by rounding only cost the same', () => {
    const ranked = rank([candidate('a', [5, 5], 0.1 + 0.2), candidate('b', [5, 5], 0.3)], 'seeds');
    expect(priceSizes(ranked)).toEqual([2]);
  });
});

describe('plans are looked at from the cheapest on', () => {
  const small = candidate('few holes', [10, 20], 40, 3, [100, 400]);
  const thrifty = candidate('few seeds', [20, 20], 10, 3, [100, 400]);
  const dim = candidate('little light', [45, 5], 30, 3, [100, 400]);

  test.each([
    ['holes', ['few holes', 'few seeds', 'little light']],
    ['seeds', ['few seeds', 'little light', 'few holes']],
    // 0.65 m2, 0.9 m2, 1.0 m2
    ['light', ['little light', 'few holes', 'few seeds']],
  ] as const)('by %s', (least, names) => {
    expect(order([dim, thrifty, small], least)).toEqual(names);
  });

  test('equal ones by the other costs: holes, seeds, light, visits', () => {
    const base = candidate('base', [20, 20], 30, 3, [100, 400]);
    const visits = candidate('fewer visits', [20, 20], 30, 2, [100, 400]);
    const light = candidate('less light', [25, 15], 30, 7, [100, 400]);
    const seeds = candidate('fewer seeds', [10, 30], 29, 7, [100, 400]);
    expect(order([base, visits, light, seeds], 'holes')).toEqual([
      'fewer seeds',
      'less light',
      'fewer visits',
      'base',
    ]);
    const holes = candidate('fewer holes', [0, 39], 30, 7, [100, 400]);
    expect(order([base, light, holes], 'seeds')).toEqual(['fewer holes', 'less light', 'base']);
  });

  test('those that cost the same in all stay as they came and have one price', () => {
    const same = ['c', 'a', 'b'].map((name) => candidate(name, [10, 20], 40));
    const ranked = rank([candidate('dear', [10, 21], 1), ...same], 'holes');
    expect(ranked.map(({ candidate: { name }, price }) => [name, price])).toEqual([
      ['c', 0],
      ['a', 0],
      ['b', 0],
      ['dear', 1],
    ]);
    expect(priceSizes(ranked)).toEqual([3, 1]);
  });

  test('what is not known decides nothing, and cannot be what is to be least', () => {
    const refilled = [candidate('b', [10, 20], null, null), candidate('a', [10, 20], null, null)];
    expect(order(refilled, 'holes')).toEqual(['b', 'a']);
    expect(() => rank(refilled, 'seeds')).toThrow(RangeError);
    expect(() => rank(refilled, 'light')).toThrow(RangeError);
  });
});

describe('which plans have to be judged', () => {
  /** One letter a plan: m meets, - misses, ? no verdict; a space before each new price. */
  function judged(plans: string, wanted: number): string {
    const prices = plans.split(' ').flatMap((letters, price) => [...letters].map(() => price));
    const letters = plans.replaceAll(' ', '');
    const verdict = (place: number): GoalVerdict | null =>
      (({ m: 'meets', '-': 'misses' }) as const)[letters[place]!] ?? null;
    const places = [...letters].map((_, place) => place);
    return [...toJudge(places, (place) => prices[place]!, verdict, wanted)]
      .map((place) => letters[place])
      .join('');
  }

  test.each([
    ['up to the one that meets, if it is enough', '- - m ? ?', 1, '--m'],
    ['all where none meets', '- - - -', 1, '----'],
    ['on to the runners-up', '- m - m ? ?', 2, '-m-m'],
    ['all of the price of the best, for the best of them is picked', '- mm?m ? ?', 1, '-mm?m'],
    ['not all of the price of a runner-up', 'm -mm? ?', 2, 'm-m'],
    ['one without a verdict counts as one that misses', '? m ?', 1, '?m'],
  ])('%s', (_, plans, wanted, expected) => {
    expect(judged(plans, wanted)).toBe(expected);
  });

  test('a part of the prices judges at least those of its own that the whole does', () => {
    const plan = fc.record({ meets: fc.boolean(), dearer: fc.boolean() });
    fc.assert(
      fc.property(
        fc.array(plan, { minLength: 1, maxLength: 40 }),
        fc.integer({ min: 1, max: 4 }),
        fc.integer({ min: 1, max: 5 }),
        (plans, wanted, n) => {
          let price = 0;
          const prices = plans.map(({ dearer }) => (dearer ? ++price : price));
          const verdict = (place: number): GoalVerdict => (plans[place]!.meets ? 'meets' : 'misses');
          const places = plans.map((_, place) => place);
          const judgedOf = (part: readonly number[]): number[] => [
            ...toJudge(part, (place) => prices[place]!, verdict, wanted),
          ];
          const byParts = Array.from({ length: n }, (_, k) =>
            judgedOf(places.filter((place) => prices[place]! % n === k)),
          ).flat();
          expect(byParts).toEqual(expect.arrayContaining(judgedOf(places)));
        },
      ),
      { seed: 5 },
    );
  });
});
