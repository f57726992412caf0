import { expect, test } from 'vitest';
import { studentQuantile } from '../../sim/engine/student.js';

// Computed independently with scipy 1.17; above 1000 degrees of freedom nothing improves the expansion.
const VALUES: readonly [df: number, p: number, t: number][] = [
  [1, 0.95, 6.3137515147],
  [1, 0.975, 12.7062047362],
  [2, 0.95, 2.9199855804],
  [2, 0.975, 4.3026527297],
  [4, 0.95, 2.1318467863],
  [4, 0.975, 2.7764451052],
  [4, 0.99, 3.746947388],
  [4, 0.995, 4.6040948713],
  [9, 0.95, 1.8331129327],
  [9, 0.975, 2.2621571628],
  [9, 0.995, 3.2498355416],
  [19, 0.975, 2.0930240544],
  [29, 0.975, 2.0452296421],
  [39, 0.95, 1.6848751217],
  [39, 0.975, 2.02269092],
  [99, 0.95, 1.660391156],
  [99, 0.975, 1.9842169516],
  [1000, 0.975, 1.9623390808],
  [1001, 0.975, 1.9623367053],
  [2000, 0.995, 2.5782897876],
];

test.each(VALUES)('with %i degrees of freedom the quantile of %d is %d', (df, p, t) => {
  // Half a unit of the last printed digit.
  expect(Math.abs(studentQuantile(p, df) - t)).toBeLessThan(6e-11);
});

test('quantiles are symmetric about 0', () => {
  for (const df of [1, 2, 3, 10, 500]) {
    expect(studentQuantile(0.025, df)).toBe(-studentQuantile(0.975, df));
    expect(studentQuantile(0.5, df)).toBe(0);
  }
});

test('with many degrees of freedom the quantile is the normal one', () => {
  expect(studentQuantile(0.975, 1e9)).toBeCloseTo(1.959963985, 8);
});

test.each([
  [0, 5],
  [1, 5],
  [Number.NaN, 5],
  [0.9, 0],
  [0.9, 2.5],
])('a probability of %d with %d degrees of freedom is refused', (p, df) => {
  expect(() => studentQuantile(p, df)).toThrow(RangeError);
});
