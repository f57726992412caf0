/** Ranges of figures that futures give: by hand, and on average of the share that they promise. */

import { describe, expect, test } from 'vitest';
import { stream } from '../../../sim/engine/random.js';
import { dayBy, quantile, rangeOf } from '../../../sim/season/ahead/range.js';

describe('a range', () => {
  test('of one value is that value', () => {
    expect(rangeOf([7])).toEqual({ mean: 7, se: null, p10: 7, p50: 7, p90: 7 });
    expect(rangeOf([7, 7, 7])).toEqual({ mean: 7, se: 0, p10: 7, p50: 7, p90: 7 });
  });

  test('counts half of those that have just the value: of 0, 0, 1, 1, 1, 1, 2, 2, 2, 3', () => {
    // Half way through the zeros 0.1 of all are below, through the ones 0.4, the twos 0.75, the three 0.95.
    const { mean, se, p10, p50, p90 } = rangeOf([3, 0, 1, 2, 1, 0, 2, 1, 2, 1]);
    expect(mean).toBe(1.3);
    // Sum of squared deviations 8.1; 8.1 / 9 / 10.
    expect(se).toBeCloseTo(0.3, 12);
    expect(p10).toBe(0);
    expect(p50).toBeCloseTo(1 + 0.1 / 0.35, 12);
    expect(p90).toBeCloseTo(2 + 0.15 / 0.2, 12);
  });

  test('of figures that are all different is the usual one with half steps (type 5)', () => {
    // Of 1 to 10: the i-th stands at (i - 0.5)/10.
    const sorted = Float64Array.from({ length: 10 }, (_, i) => i + 1);
    expect(quantile(sorted, 0.1)).toBeCloseTo(1.5, 12);
    expect(quantile(sorted, 0.5)).toBeCloseTo(5.5, 12);
    expect(quantile(sorted, 0.9)).toBeCloseTo(9.5, 12);
  });

  test('of whole numbers holds on average 80 % of what comes, though both ends belong to it', () => {
    // Binomial(n, 1/2) for 20 values of n: exact chances, a thousand values each in exact proportion would be these.
    let held = 0;
    const [from, to] = [20, 40];
    for (let n = from; n < to; n++) {
      const chances = binomial(n);
      const sorted = Float64Array.from(
        chances.flatMap((chance, k) => new Array<number>(Math.round(chance * 100_000)).fill(k)),
      );
      const [low, high] = [quantile(sorted, 0.1), quantile(sorted, 0.9)];
      held += chances.reduce((sum, chance, k) => sum + (k >= low && k <= high ? chance : 0), 0);
    }
    // One such range holds from 70 to 90 %, as the steps are up to 18 % high; the mean of 20 of them is 2 % near.
    expect(Math.abs(held / (to - from) - 0.8)).toBeLessThan(0.03);
  });
});

test('a day by which a share of all has come is one of the days', () => {
  const days = Float64Array.from([3, 3, 5, 8, 8, 8, 12, 12, 15, 20]);
  expect([0.1, 0.5, 0.9].map((p) => dayBy(days, p))).toEqual([3, 8, 20]);
  const uniform = stream(1, 0, ['days']);
  for (let i = 0; i < 20; i++) expect([...days]).toContain(dayBy(days, uniform()));
});

function binomial(n: number): number[] {
  let chances = [1];
  for (let i = 0; i < n; i++) {
    chances = Array.from({ length: i + 2 }, (_, k) => ((chances[k - 1] ?? 0) + (chances[k] ?? 0)) / 2);
  }
  return chances;
}
