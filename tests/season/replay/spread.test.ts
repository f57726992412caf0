import { describe, expect, test } from 'vitest';
import { TICK, toGrid } from '../../../sim/engine/clock.js';
import { GrowingTime } from '../../../sim/models/growing-time.js';
import type { GrowthTime } from '../../../sim/models/plan.js';
import { spreadEvenly, spreadLikely } from '../../../sim/season/replay/spread.js';
import { observed, time } from '../../support/plans.js';

function times(growth: GrowthTime, least: number, most: number, n: number) {
  const out = new Float64Array(n);
  spreadLikely(new GrowingTime(growth), least, most, out);
  return [...out];
}

describe('times within limits', () => {
  test('follow the plan: the median of a lognormal law is in the middle of one plant without limits', () => {
    // Mean 24, CV 0.1: median 23.880892565040 (computed independently, mpmath). The grid is 6e-8 days wide.
    expect(times(time(24, 0.1), 1e-3, Infinity, 1)[0]).toBeCloseTo(23.88089256504, 6);
  });

  test('are the quantiles of the law where there are no limits', () => {
    // q(0.05), q(0.5), q(0.95) of the same law are places 0, 4.5 and 9 of ten plants at shares 0.05, 0.15 ... 0.95.
    const all = times(time(24, 0.1), 1e-3, Infinity, 10);
    expect(all[0]).toBeCloseTo(20.267169343064, 6);
    expect(all[9]).toBeCloseTo(28.138958137149, 6);
  });

  test('stay within the limits, the shortest first', () => {
    const all = times(time(24, 0.1), 22, 23, 50);
    expect(Math.min(...all)).toBeGreaterThanOrEqual(22);
    expect(Math.max(...all)).toBeLessThanOrEqual(23);
    expect(all).toEqual([...all].sort((a, b) => a - b));
    expect(new Set(all).size).toBe(50);
  });

  test('of a law with one time are that time if it lies within, and else spread evenly', () => {
    expect(times(time(7), 6, 8, 3)).toEqual([7, 7, 7]);
    expect(times(time(7), 8, 10, 2)).toEqual([8.5, 9.5]);
    expect(times(time(7), 8, Infinity, 2)).toEqual([8, 8]);
  });

  test('of observed times are those within, as often as they were observed', () => {
    expect(times(observed(5, 6, 6, 8), 5.5, 8, 3)).toEqual([6, 6, 8]);
    expect(times(observed(5, 6, 6, 8), 6, 6, 2)).toEqual([6, 6]);
  });

  test('that do not lie on the grid count as drawn: on the grid', () => {
    // One of them lies a little below the grid, the other a little above.
    const [below, above] = [12.3, 12.7];
    expect([toGrid(below) > below, toGrid(above) < above]).toEqual([true, true]);
    for (const days of [below, above]) {
      const at = toGrid(days);
      expect(times(observed(days, 20), at, at + 8, 2)).toEqual([at, 20]);
      expect(times(observed(days, 2), 1, at, 2)).toEqual([2, at]);
      expect(times(observed(days, 2), at + TICK, at + 8, 1)).toEqual([toGrid(at + TICK / 2 + 4)]);
    }
  });
});

test('an even spread has the same distance between all, half of it at the ends', () => {
  const out = new Float64Array(4);
  spreadEvenly(2, 4, out);
  expect([...out]).toEqual([2.25, 2.75, 3.25, 3.75]);
});
