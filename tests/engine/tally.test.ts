/**
 * Check values: quantiles of the ten numbers A were computed independently (type 7 of Hyndman & Fan, the default of
 * R and numpy), mean and standard deviation too; the t quantile of the half width is in its own test.
 */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { TICK, TICKS_PER_DAY, toGrid } from '../../sim/engine/clock.js';
import { Histogram, Levels, Moments } from '../../sim/engine/tally.js';

const A = [102, 117, 119, 101, 100, 101, 115, 112, 118, 116];
const B = [104, 118, 121, 106, 106, 102, 117, 112, 120, 117];

function momentsOf(values: readonly number[]): Moments {
  const moments = new Moments();
  for (const value of values) moments.add(value);
  return moments;
}

function countsOf(values: readonly number[]): Histogram {
  const counts = new Histogram();
  for (const value of values) counts.add(value);
  return counts;
}

describe('Moments', () => {
  test.each([
    { name: 'A', values: A, mean: 110.1, sd: 8.061568637 },
    { name: 'B', values: B, mean: 112.3, sd: 7.196449742 },
    { name: 'B - A', values: B.map((b, i) => b - A[i]!), mean: 2.2, sd: 1.8737959097 },
  ])('mean and standard deviation of $name', ({ values, mean, sd }) => {
    const moments = momentsOf(values);
    expect(moments.mean).toBeCloseTo(mean, 10);
    expect(Math.sqrt(moments.variance)).toBeCloseTo(sd, 9);
    expect(moments.standardError).toBeCloseTo(sd / Math.sqrt(10), 9);
  });

  test('do not lose a small spread about a large mean', () => {
    // The textbook difference of sums would give 0 or less here. Variance of 1 .. 10 is 55/6 by hand.
    const moments = momentsOf(Array.from({ length: 10 }, (_, i) => 1e9 + i + 1));
    expect(moments.variance).toBeCloseTo(55 / 6, 9);
  });

  test('are not a number where there is none: no mean spread below two values', () => {
    expect(new Moments().variance).toBeNaN();
    expect(momentsOf([3]).variance).toBeNaN();
    expect(momentsOf([3]).standardError).toBeNaN();
    expect(momentsOf([3, 3]).variance).toBe(0);
  });

  const value = fc.double({ min: -1e6, max: 1e6, noNaN: true });

  test('are those of the direct formulas', () => {
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 120 }), (all) => {
        const mean = all.reduce((sum, x) => sum + x, 0) / all.length;
        const squares = all.reduce((sum, x) => sum + (x - mean) ** 2, 0);
        const close = (a: number, b: number, scale: number): void => {
          if (!(Math.abs(a - b) <= 1e-9 * scale)) throw new Error(`${a} is not ${b}`);
        };
        const moments = momentsOf(all);
        expect(moments.count).toBe(all.length);
        close(moments.mean, mean, 1e6);
        close(moments.squares, squares, 1e12 * all.length);
      }),
      { seed: 1 },
    );
  });
});

describe('Counts', () => {
  test.each([
    [0, 100],
    [0.05, 100.45],
    [0.1, 100.9],
    [0.25, 101.25],
    [0.5, 113.5],
    [0.75, 116.75],
    [0.9, 118.1],
    [0.95, 118.55],
    [1, 119],
  ])('the quantile %d of A is %d', (p, quantile) => {
    expect(countsOf(A).quantile(p)).toBeCloseTo(quantile, 10);
  });

  test('the mean of A and its standard error; there is none below two values', () => {
    expect(countsOf(A).mean).toBeCloseTo(110.1, 10);
    expect(countsOf(A).standardError).toBeCloseTo(8.061568637 / Math.sqrt(10), 9);
    expect(new Histogram().mean).toBeNaN();
    expect(countsOf([3]).standardError).toBeNaN();
    expect(countsOf([3, 3]).standardError).toBe(0);
  });

  const numbers = fc.array(fc.oneof(fc.nat(20), fc.nat(5000)), { minLength: 1, maxLength: 60 });
  const shares = fc.constantFrom(0, 0.01, 0.1, 0.25, 1 / 3, 0.5, 0.9, 0.999, 1);

  test('quantiles are those of the sorted list', () => {
    fc.assert(
      fc.property(numbers, shares, (values, p) => {
        const sorted = [...values].sort((a, b) => a - b);
        const place = p * (sorted.length - 1);
        const low = sorted[Math.floor(place)]!;
        const high = sorted[Math.ceil(place)]!;
        const direct = low + (place - Math.floor(place)) * (high - low);
        expect(countsOf(values).quantile(p)).toBeCloseTo(direct, 9);
      }),
      { seed: 2 },
    );
  });

  test('the least value that a share do not exceed is the value that reaches that share', () => {
    // Of 30 values 0.1 x 30 = 3, which no rounding may make 4.
    const counts = countsOf(Array.from({ length: 30 }, (_, i) => 10 * i));
    expect([0, 0.1, 0.11, 0.5, 1].map((p) => counts.least(p))).toEqual([0, 20, 30, 140, 290]);
    expect(new Histogram().least(0.5)).toBeNaN();
    fc.assert(
      fc.property(numbers, shares, (values, p) => {
        const all = countsOf(values);
        const least = all.least(p);
        expect(values).toContain(least);
        expect(all.shareUpTo(least)).toBeGreaterThanOrEqual(p - 1e-12);
        if (least > Math.min(...values)) expect(all.shareUpTo(least - 1)).toBeLessThan(p);
      }),
      { seed: 4 },
    );
  });

  test('merging parts gives what counting everything in one gives', () => {
    fc.assert(
      fc.property(numbers, numbers, shares, (one, other, p) => {
        const merged = countsOf(one);
        merged.merge(countsOf(other));
        const all = countsOf([...one, ...other]);
        expect(merged.total).toBe(all.total);
        expect(merged.quantile(p)).toBe(all.quantile(p));
        expect(merged.shareUpTo(one[0]!)).toBe(all.shareUpTo(one[0]!));
      }),
      { seed: 3 },
    );
  });

  test('a value may come far below or above the others', () => {
    const counts = countsOf([5000, 3, 100_000, 0]);
    expect([0, 1 / 3, 2 / 3, 1].map((p) => counts.quantile(p))).toEqual([0, 3, 5000, 100_000]);
  });

  test('a value may be counted many times at once', () => {
    const counts = new Histogram();
    counts.add(2, 3);
    counts.add(7);
    expect(counts.total).toBe(4);
    expect(counts.quantile(2 / 3)).toBe(2);
    expect(counts.quantile(1)).toBe(7);
  });

  test('the share of values up to a number, and of none', () => {
    const counts = countsOf(A);
    expect(counts.shareUpTo(99)).toBe(0);
    expect(counts.shareUpTo(101)).toBe(0.3);
    expect(counts.shareUpTo(119)).toBe(1);
    expect(counts.shareUpTo(1e6)).toBe(1);
    expect(new Histogram().shareUpTo(1)).toBeNaN();
    expect(new Histogram().quantile(0.5)).toBeNaN();
  });

  test('what is not a whole number of at least 0, or not a probability, is refused', () => {
    const counts = countsOf(A);
    for (const value of [-1, 0.5, Number.NaN, Infinity]) expect(() => counts.add(value)).toThrow(RangeError);
    for (const p of [-0.1, 1.1, Number.NaN]) expect(() => counts.quantile(p)).toThrow(RangeError);
    expect(counts.total).toBe(10);
  });
});

describe('Levels', () => {
  test('the area under a level, worked by hand', () => {
    const levels = new Levels(2, 10);
    levels.set(0, 3, 0);
    levels.set(1, 1, 2.5);
    levels.set(0, 5, 4);
    levels.set(0, 0, 6);
    levels.set(1, 1, 7);
    expect([...levels.areas]).toEqual([3 * 4 + 5 * 2, 7.5]);
    levels.reset();
    expect([...levels.areas]).toEqual([0, 0]);
  });

  test('a jump is the same whether the new level is given or the difference', () => {
    const levels = new Levels(1, 10);
    levels.set(0, 3, 0);
    levels.add(0, 2, 4);
    levels.add(0, -5, 6);
    levels.set(0, 1, 7.5);
    expect([...levels.areas]).toEqual([3 * 4 + 5 * 2 + 1 * 2.5]);
  });

  test('the areas of levels that add up to a constant add up to it x the horizon, exactly', () => {
    const HOLES = 150_000;
    const DAYS = 364;
    const moves = fc.array(
      fc.record({
        gap: fc.integer({ min: 0, max: TICKS_PER_DAY }),
        from: fc.nat(3),
        to: fc.nat(3),
        holes: fc.nat(1000),
      }),
      { minLength: 100, maxLength: 300, size: 'max' },
    );
    fc.assert(
      fc.property(moves, (script) => {
        const levels = new Levels(4, DAYS);
        const now = [HOLES, 0, 0, 0];
        levels.set(0, HOLES, 0);
        let ticks = 0;
        for (const { gap, from, to, holes } of script) {
          ticks += gap;
          const moved = Math.min(holes, now[from]!);
          now[from]! -= moved;
          now[to]! += moved;
          now.forEach((level, i) => {
            levels.set(i, level, ticks * TICK);
          });
        }
        expect(levels.areas.reduce((sum, area) => sum + area, 0)).toBe(HOLES * DAYS);
      }),
      { seed: 4, numRuns: 50 },
    );
  });

  test('a horizon that is no time is refused', () => {
    for (const horizon of [0, -1, Infinity, Number.NaN]) {
      expect(() => new Levels(1, horizon)).toThrow(RangeError);
    }
  });
});

describe('the grid of time', () => {
  test('whole days, quarters and infinity are on it; everything else moves by half a tick at most', () => {
    for (const days of [0, 1, 363.25, 10_000, Infinity]) expect(toGrid(days)).toBe(days);
    for (const days of [0.1, Math.PI, 24 / 7]) {
      const on = toGrid(days);
      expect(Number.isInteger(on * TICKS_PER_DAY)).toBe(true);
      expect(Math.abs(on - days)).toBeLessThanOrEqual(TICK / 2);
    }
  });
});
