import { describe, expect, test } from 'vitest';
import { fixedLaw, lognormalLaw, observedLaw } from '../../../sim/engine/quantiles.js';
import { Spread, spreadEvenly } from '../../../sim/season/replay/spread.js';

function times(
  law: Parameters<typeof lognormalLaw> | 'fixed' | 'observed',
  least: number,
  most: number,
  n: number,
) {
  const out = new Float64Array(n);
  const made =
    law === 'fixed' ? fixedLaw(7) : law === 'observed' ? observedLaw([5, 6, 6, 8]) : lognormalLaw(...law);
  new Spread(made).fill(least, most, out);
  return [...out];
}

describe('times within limits', () => {
  test('follow the plan: the median of a lognormal law is in the middle of one plant without limits', () => {
    // Mean 24, CV 0.1: median 23.880892565040 (computed independently, mpmath). The grid is 6e-8 days wide.
    expect(times([24, 0.1], 1e-3, Infinity, 1)[0]).toBeCloseTo(23.88089256504, 6);
  });

  test('are the quantiles of the law where there are no limits', () => {
    // q(0.05), q(0.5), q(0.95) of the same law are places 0, 4.5 and 9 of ten plants at shares 0.05, 0.15 ... 0.95.
    const all = times([24, 0.1], 1e-3, Infinity, 10);
    expect(all[0]).toBeCloseTo(20.267169343064, 6);
    expect(all[9]).toBeCloseTo(28.138958137149, 6);
  });

  test('stay within the limits, the shortest first', () => {
    const all = times([24, 0.1], 22, 23, 50);
    expect(Math.min(...all)).toBeGreaterThanOrEqual(22);
    expect(Math.max(...all)).toBeLessThanOrEqual(23);
    expect(all).toEqual([...all].sort((a, b) => a - b));
    expect(new Set(all).size).toBe(50);
  });

  test('of a law with one time are that time if it lies within, and else spread evenly', () => {
    expect(times('fixed', 6, 8, 3)).toEqual([7, 7, 7]);
    expect(times('fixed', 8, 10, 2)).toEqual([8.5, 9.5]);
    expect(times('fixed', 8, Infinity, 2)).toEqual([8, 8]);
  });

  test('of observed times are those within, as often as they were observed', () => {
    expect(times('observed', 5.5, 8, 3)).toEqual([6, 6, 8]);
    expect(times('observed', 6, 6, 2)).toEqual([6, 6]);
  });
});

test('an even spread has the same distance between all, half of it at the ends', () => {
  const out = new Float64Array(4);
  spreadEvenly(2, 4, out);
  expect([...out]).toEqual([2.25, 2.75, 3.25, 3.75]);
});
