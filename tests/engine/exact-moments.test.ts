/** Sums without rounding: checked against rational arithmetic in whole numbers, and against a worked example. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { TICK } from '../../sim/engine/clock.js';
import { ExactMoments } from '../../sim/engine/exact-moments.js';

/** Figures on the grid, in ticks: small ones, any, and the largest that there may be. */
const ticks = fc.oneof(
  fc.integer({ min: 0, max: 5 }),
  fc.integer({ min: 0, max: 2 ** 31 - 1 }),
  fc.maxSafeInteger().map((n) => Math.abs(n)),
  fc.constantFrom(0, 1, 2 ** 26, 2 ** 26 + 1, 2 ** 27 - 1, 2 ** 52, Number.MAX_SAFE_INTEGER),
);

function momentsOf(column: readonly number[]): ExactMoments {
  const moments = new ExactMoments(1);
  for (const value of column) moments.add(Float64Array.of(value * TICK));
  return moments;
}

/** Mean [ticks] and n x sum of squares - square of the sum [ticks^2], in whole numbers. */
function exactly(column: readonly number[]): { sum: bigint; spread: bigint } {
  const values = column.map(BigInt);
  const sum = values.reduce((a, b) => a + b, 0n);
  const squares = values.reduce((a, b) => a + b * b, 0n);
  return { sum, spread: BigInt(values.length) * squares - sum * sum };
}

describe('exact moments', () => {
  test('are those of whole-number arithmetic', () => {
    fc.assert(
      fc.property(fc.array(ticks, { minLength: 2, maxLength: 40 }), (column) => {
        const moments = momentsOf(column);
        const { sum, spread } = exactly(column);
        const n = column.length;
        // The only roundings are those of the last few divisions and of the root.
        const near = (found: number, wanted: number): void =>
          expect(Math.abs(found - wanted)).toBeLessThanOrEqual(4 * Number.EPSILON * wanted);
        near(moments.mean(0), (Number(sum) / n) * TICK);
        near(moments.standardError(0), (Math.sqrt(Number(spread) / (n - 1)) / n) * TICK);
      }),
      { seed: 1, numRuns: 500 },
    );
  });

  test('of values that are all the same have no spread, however large they are', () => {
    // Floating point loses this one: the squares differ in their last digits.
    const moments = momentsOf(new Array<number>(1001).fill(Number.MAX_SAFE_INTEGER - 12));
    expect(moments.standardError(0)).toBe(0);
  });

  test('of parts, merged in any order, are the same to the last digit', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(ticks, fc.nat(3)), { minLength: 2, maxLength: 40 }),
        fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4 }),
        (column, order) => {
          const parts = [0, 1, 2, 3].map((k) =>
            momentsOf(column.filter(([, part]) => part === k).map(([t]) => t)),
          );
          const merged = new ExactMoments(1);
          for (const k of order)
            merged.merge(ExactMoments.from(1, JSON.parse(JSON.stringify(parts[k]!.toData()))));
          const whole = momentsOf(column.map(([t]) => t));
          expect(merged.count).toBe(whole.count);
          expect(merged.mean(0)).toBe(whole.mean(0));
          expect(merged.standardError(0)).toBe(whole.standardError(0));
        },
      ),
      { seed: 2, numRuns: 300 },
    );
  });

  test('stay exact over a million rows: sums are carried, not rounded', () => {
    const moments = new ExactMoments(1);
    const [odd, even] = [Float64Array.of((2 ** 53 - 1) * TICK), Float64Array.of(TICK)];
    for (let i = 0; i < 500_000; i++) {
      moments.add(odd);
      moments.add(even);
    }
    // Half are 2^53 - 1 ticks, half 1 tick: mean 2^52, each 2^52 - 1 off.
    expect(moments.mean(0)).toBe(2 ** 52 * TICK);
    expect(moments.standardError(0)).toBeCloseTo(((2 ** 52 - 1) * TICK) / Math.sqrt(999_999), 8);
  });

  test('of two columns do not mix', () => {
    const moments = new ExactMoments(2);
    moments.add(Float64Array.of(1, 10));
    moments.add(Float64Array.of(3, 30));
    expect([moments.mean(0), moments.mean(1)]).toEqual([2, 20]);
    expect([moments.standardError(0), moments.standardError(1)]).toEqual([1, 10]);
  });

  test('give the mean and the standard deviation of a worked example', () => {
    // Mean and sample standard deviation computed with R 4.2.
    const moments = new ExactMoments(1);
    for (const x of [102, 117, 119, 101, 100, 101, 115, 112, 118, 116]) moments.add(Float64Array.of(x));
    expect(moments.mean(0)).toBe(110.1);
    expect(moments.standardError(0) * Math.sqrt(10)).toBeCloseTo(8.061568637, 9);
  });

  test('know nothing of the mean without a row, and of the spread below two', () => {
    const moments = new ExactMoments(1);
    expect(moments.mean(0)).toBeNaN();
    moments.add(Float64Array.of(4));
    expect(moments.mean(0)).toBe(4);
    expect(moments.standardError(0)).toBeNaN();
  });

  test('refuse data of another width', () => {
    expect(() => ExactMoments.from(2, new ExactMoments(1).toData())).toThrow('not 2 columns: 9 numbers');
  });
});
