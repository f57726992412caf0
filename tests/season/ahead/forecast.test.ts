/** Ranges of figures that futures give: by hand, and against the share that they promise. */

import { describe, expect, test } from 'vitest';
import { Histogram } from '../../../sim/engine/tally.js';
import { dayBy, forecastOf } from '../../../sim/season/ahead/forecast.js';

describe('a range', () => {
  test('of one value is that value', () => {
    expect(forecastOf([7])).toEqual({
      ...{ mean: 7, se: null, p10: 7, p50: 7, p90: 7 },
      ...{ low: 7, high: 7, share: 1 },
    });
    expect(forecastOf([7, 7, 7])).toMatchObject({ mean: 7, se: 0, p50: 7, low: 7, high: 7 });
  });

  test('is by the definition of all other results: of 0, 0, 1, 1, 1, 1, 2, 2, 2, 3', () => {
    const values = [3, 0, 1, 2, 1, 0, 2, 1, 2, 1];
    const { mean, se, p10, p50, p90 } = forecastOf(values);
    expect(mean).toBe(1.3);
    // Sum of squared deviations 8.1; 8.1 / 9 / 10.
    expect(se).toBeCloseTo(0.3, 12);
    // Places 0.9, 4.5 and 8.1 of 0 to 9.
    expect([p10, p50]).toEqual([0, 1]);
    expect(p90).toBeCloseTo(2.1, 12);
    const counts = new Histogram();
    for (const value of values) counts.add(value);
    expect([p10, p50, p90]).toEqual([0.1, 0.5, 0.9].map((p) => counts.quantile(p)));
  });

  test('of figures that are all different, 1 to 11, has one below its lower end and one above its upper', () => {
    const { p10, p50, p90 } = forecastOf(Float64Array.from({ length: 11 }, (_, i) => 11 - i));
    expect([p10, p50, p90]).toEqual([2, 6, 10]);
  });

  test('that is told begins and ends where its share is nearest to eight in ten', () => {
    // 0 to 3 holds 10 of 10, 1 to 3 and 0 to 2 hold 8 and 9, 1 to 2 holds 7: the ends of 10 and 90 % are 0 and 2.1.
    expect(forecastOf([3, 0, 1, 2, 1, 0, 2, 1, 2, 1])).toMatchObject({ low: 1, high: 3, share: 0.8 });
    // Of fractions: 2.5 to 11.5, of which 3 to 11 hold 8 of 10.
    expect(forecastOf(Float64Array.from({ length: 10 }, (_, i) => i + 2.5))).toMatchObject({
      ...{ low: 3, high: 11, share: 0.8 },
    });
    // Nearly all alike: one number only.
    expect(forecastOf([...new Array<number>(85).fill(4), ...new Array<number>(15).fill(5)])).toMatchObject({
      ...{ low: 4, high: 4, share: 0.85 },
    });
  });

  test('of whole numbers: at most 10 % of what comes lies below its lower end, and at least 10 % at it or below', () => {
    // Binomial(n, 1/2) for 20 values of n: exact chances, a hundred thousand values each in that proportion.
    for (let n = 20; n < 40; n++) {
      const chances = binomial(n);
      const { p10, p90 } = forecastOf(
        chances.flatMap((chance, k) => new Array<number>(Math.round(chance * 100_000)).fill(k)),
      );
      const share = (counts: (k: number) => boolean): number =>
        chances.reduce((sum, chance, k) => sum + (counts(k) ? chance : 0), 0);
      // Rounding to whole values moves a share by less than n / 100 000.
      expect(share((k) => k < p10)).toBeLessThan(0.1 + n / 1e5);
      expect(share((k) => k <= p10)).toBeGreaterThan(0.1 - n / 1e5);
      expect(share((k) => k > p90)).toBeLessThan(0.1 + n / 1e5);
      expect(share((k) => k >= p90)).toBeGreaterThan(0.1 - n / 1e5);
    }
  });
});

test('a day by which a share of all has come is a quantile, on the nearest day', () => {
  // Places 0.9, 4.5 and 8.1: from 3 to 3, half way from 8 to 8, a tenth of the way from 15 to 24.
  const days = [24, 3, 5, 8, 3, 8, 12, 8, 12, 15];
  expect([0.1, 0.5, 0.9].map((p) => dayBy(days, p))).toEqual([3, 8, 16]);
});

function binomial(n: number): number[] {
  let chances = [1];
  for (let i = 0; i < n; i++) {
    chances = Array.from({ length: i + 2 }, (_, k) => ((chances[k - 1] ?? 0) + (chances[k] ?? 0)) / 2);
  }
  return chances;
}
