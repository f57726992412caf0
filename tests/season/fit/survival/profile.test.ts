/** Intervals against closed forms. */

import { expect, test } from 'vitest';
import { maximise } from '../../../../sim/season/fit/survival/maximise.js';
import { fewPlantsRoot, profileEstimate } from '../../../../sim/season/fit/survival/profile.js';

test('of a share it is the interval by the likelihood ratio', () => {
  // 5 of 50: the ends at which 2 (lnL(0.1) - lnL(p)) = 3.841459, by root finding with scipy 1.17.
  const f = ([x]: readonly number[]): number =>
    -5 * Math.log1p(Math.exp(-x!)) - 45 * Math.log1p(Math.exp(x!));
  const bounds = { low: [-12], high: [12] };
  const { value, low, high } = profileEstimate(f, maximise(f, { start: [0], ...bounds }), bounds, 0, null);
  const share = (x: number): number => 1 / (1 + Math.exp(-x));
  expect(share(value)).toBeCloseTo(0.1, 6);
  // The crossing is found to within 0.02 of the root of the fall, a hundredth of half the interval.
  expect(Math.abs(share(low) - 0.037067)).toBeLessThan(0.0008);
  expect(Math.abs(share(high) - 0.202736)).toBeLessThan(0.0012);
});

/**
 * ln of the likelihood of a normal sample of n with mean 0 and sum of squares n: parameters mean and ln of
 * the deviation.
 */
const normal =
  (n: number) =>
  ([mu, ls]: readonly number[]): number =>
    -n * ls! - (n * (1 + mu! * mu!)) / (2 * Math.exp(2 * ls!));

test('adjusted for the mean, a deviation is that with n - 1', () => {
  const n = 12;
  const bounds = { low: [-50, -5], high: [50, 5] };
  const f = normal(n);
  const top = maximise(f, { start: [0.3, 0.4], ...bounds });
  expect(Math.exp(top.at[1]!)).toBeCloseTo(1, 4);
  const { value } = profileEstimate(f, top, bounds, 1, 0);
  // The peak is taken from a parabola through points 0.3 standard errors away.
  expect(Math.exp(value)).toBeCloseTo(Math.sqrt(n / (n - 1)), 2);
});

test('of a normal mean it allows for the deviation being fitted: n ln(1 + mean^2) = 3.841459 at its ends', () => {
  for (const n of [8, 30]) {
    const bounds = { low: [-50, -5], high: [50, 5] };
    const f = normal(n);
    const top = maximise(f, { start: [0.3, 0.4], ...bounds });
    const { low, high } = profileEstimate(f, top, bounds, 0, null);
    const end = Math.sqrt(Math.expm1(3.841459 / n));
    expect(Math.abs(high / end - 1)).toBeLessThan(0.012);
    expect(Math.abs(low / -end - 1)).toBeLessThan(0.012);
  }
});

test("of few plants a normal mean has the interval by Student's t", () => {
  // 97.5 % quantiles of Student's t with 7 and 29 degrees of freedom, as in any table of it.
  for (const [n, t] of [
    [8, 2.3646],
    [30, 2.0452],
  ] as const) {
    const bounds = { low: [-50, -5], high: [50, 5] };
    const f = normal(n);
    const top = maximise(f, { start: [0.3, 0.4], ...bounds });
    const { low, high } = profileEstimate(f, top, bounds, 0, null, fewPlantsRoot(n));
    // The mean is 0, the sum of squares n: so the standard error is sqrt(1 / (n - 1)).
    const end = t / Math.sqrt(n - 1);
    expect(Math.abs(high / end - 1)).toBeLessThan(0.012);
    expect(Math.abs(low / -end - 1)).toBeLessThan(0.012);
  }
});

test('a likelihood that does not fall before the bound has its end there', () => {
  const f = ([x]: readonly number[]): number => (x! < 0 ? 0.001 * x! : -(x! ** 2));
  const bounds = { low: [-40], high: [40] };
  const { low, high } = profileEstimate(f, maximise(f, { start: [1], ...bounds }), bounds, 0, null);
  expect(low).toBe(-40);
  // x^2 = 3.841459 / 2
  expect(high).toBeCloseTo(1.386, 1);
});

/** A likelihood, which has no answer to what is no number. */
const asked =
  (f: (at: readonly number[]) => number) =>
  (at: readonly number[]): number => {
    if (at.some(Number.isNaN)) throw new RangeError(`asked at ${at}`);
    return f(at);
  };

test('where nothing that is tried can have been seen, nothing is known: the interval is all that is searched', () => {
  const never = asked(() => -Infinity);
  const bounds = { low: [-3, -2], high: [3, 2] };
  const top = maximise(never, { start: [0.5, 0.5], ...bounds });
  expect(profileEstimate(never, top, bounds, 0, 1)).toEqual({ value: 0.5, low: -3, high: 3 });
});

test('a best place between two at which it cannot have been seen stays the best', () => {
  const edge = asked(([x]) => (Math.abs(x!) < 0.1 ? -(x! ** 2) : -Infinity));
  const bounds = { low: [-3, -2], high: [3, 2] };
  const hessian = [
    [-2, 0],
    [0, -1],
  ];
  const { value } = profileEstimate(edge, { at: [0, 0], value: 0, hessian }, bounds, 0, 1);
  expect(value).toBe(0);
});
