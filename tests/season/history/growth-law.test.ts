/** What is likely of a plant that has stood for some time: against closed forms, and against plants drawn at random. */

import { describe, expect, test } from 'vitest';
import { TICK } from '../../../sim/engine/clock.js';
import { stream } from '../../../sim/engine/random.js';
import { lawOf } from '../../../sim/models/growth.js';
import type { GrowthTime } from '../../../sim/models/plan.js';
import { GrowthLaw } from '../../../sim/season/history/growth-law.js';
import { exponential, grow, observed, time } from '../../support/plans.js';

function courseOf(growth: GrowthTime): GrowthLaw {
  return new GrowthLaw(grow(growth), 1);
}

/** P(U T <= t) = E min(1, t / T), by the midpoint rule over 100 000 quantiles of T. */
function lostBy(growth: GrowthTime, t: number): number {
  const times = Float64Array.from({ length: 100_000 }, (_, i) => (i + 0.5) / 100_000);
  lawOf(growth).fill(times, times.length);
  return times.reduce((sum, time) => sum + Math.min(1, t / time), 0) / times.length;
}

describe('a plant that will be lost', () => {
  test.each([
    { shape: 'lognormal', days: 21, spread: 0.12 },
    { shape: 'gamma', days: 14, spread: 0.3 },
    { shape: 'weibull', days: 7, spread: 0.2 },
  ] as const)('$shape: the chance of living on is 1 less P(U T <= t)', (law) => {
    const growth = { ...law, times: [] };
    const course = courseOf(growth);
    for (const share of [0.1, 0.5, 0.9, 1, 1.1, 1.2]) {
      const age = share * law.days;
      // 64 points over the law: measured, the midpoint rule is off by at most 2.6e-3 of the chance itself.
      const living = 1 - lostBy(growth, age);
      expect(course.dyingBeyond(age) / living).toBeCloseTo(1, 2);
    }
  });

  test('of a fixed time of 10 d lives on with 1 - age/10, and dies evenly over the rest', () => {
    const course = courseOf(time(10));
    expect(course.dyingBeyond(6)).toBeCloseTo(0.4, 12);
    expect(course.dyingBeyond(10)).toBe(0);
    const uniform = stream(1, 0, ['deaths']);
    const ages = Array.from({ length: 4000 }, () => course.deathBeyond(6, uniform).dies);
    expect(Math.min(...ages)).toBeGreaterThan(6);
    expect(Math.max(...ages)).toBeLessThan(10);
    // Even from 6 to 10: mean 8, standard deviation 4/sqrt(12); within 4 standard errors.
    const mean = ages.reduce((sum, age) => sum + age, 0) / ages.length;
    expect(Math.abs(mean - 8)).toBeLessThan((4 * (4 / Math.sqrt(12))) / Math.sqrt(4000));
  });

  test('dies at ages that are spread as P(U T <= t) has it beyond the present age', () => {
    const growth: GrowthTime = { shape: 'lognormal', days: 21, spread: 0.3, times: [] };
    const course = courseOf(growth);
    const before = lostBy(growth, 15);
    const uniform = stream(2, 0, ['deaths']);
    const ages = Array.from({ length: 4000 }, () => course.deathBeyond(15, uniform).dies);
    for (const age of [16, 18, 21, 25]) {
      const chance = (lostBy(growth, age) - before) / (1 - before);
      const share = ages.filter((one) => one <= age).length / ages.length;
      // 4 standard errors of a share.
      expect(Math.abs(share - chance)).toBeLessThan(4 * Math.sqrt((chance * (1 - chance)) / 4000));
    }
  });
});

describe('how long a plant still needs', () => {
  test('an exponential time has no memory: beyond any age it is as at the beginning', () => {
    const course = courseOf(exponential(10));
    for (const age of [1, 10, 100]) {
      for (const u of [0.1, 0.5, 0.9]) {
        const rest = course.timeWithin(age + TICK, Infinity, u) - age;
        // On the grid, to a tick.
        expect(Math.abs(rest - -10 * Math.log(1 - u))).toBeLessThan(2 * TICK);
      }
    }
  });

  test('of a list of times only those beyond are left, each as likely as before', () => {
    const course = courseOf(observed(11, 12, 12, 14, 17));
    const drawn = (u: number): number => course.timeWithin(11 + TICK, Infinity, u);
    expect([0.01, 0.24, 0.49, 0.51, 0.74, 0.76, 0.99].map(drawn)).toEqual([12, 12, 12, 14, 14, 17, 17]);
    expect(course.timeWithin(11 + TICK, 16, 0.99)).toBe(14);
  });

  test('a time at a limit belongs to it', () => {
    const course = courseOf(time(10));
    expect(course.readyBy(10)).toBe(1);
    expect(course.readyBy(10 - TICK)).toBe(0);
    expect(course.timeWithin(10, 12, 0.5)).toBe(10);
  });

  test('where the law has nothing, the nearest limit is taken', () => {
    const course = courseOf(time(10));
    expect(course.timeWithin(12, Infinity, 0.5)).toBe(12);
    expect(course.timeWithin(3, 8, 0.5)).toBe(8);
    // A lognormal time of 10 d with a spread of 0.01 is not 40 d in this world.
    const narrow = courseOf(time(10, 0.01));
    expect(narrow.timeWithin(40, Infinity, 0.3)).toBe(40);
  });
});
