/** The softplus function and its relatives, against what is known of them and against quadrature. */

import { expect, test } from 'vitest';
import { inverseSoftplus, logistic, softplus, softplusIntegral } from '../../sim/engine/softplus.js';
import { expectNear } from '../support/near.js';

const PLACES = [-700, -40, -5, -1, -1e-9, 0, 1e-9, 0.3, 1, 1.547, 5, 40, 700, 1e6];

test('no size is too large, and the far ends are what they tend to', () => {
  expect(softplus(0)).toBeCloseTo(Math.LN2, 15);
  expect(softplus(1e6)).toBe(1e6);
  expectNear(softplus(-700), Math.exp(-700), 1e-12);
  expect(logistic(1e6)).toBe(1);
  expect(logistic(0)).toBe(0.5);
  expect(inverseSoftplus(1e6)).toBe(1e6);
});

test.each(PLACES.filter((x) => x > -300))('the inverse of softplus of %s is itself', (x) => {
  // Where softplus is near x its last digit is that of x; near 0 the inverse has the digits of ln.
  expect(Math.abs(inverseSoftplus(softplus(x)) - x)).toBeLessThanOrEqual(1e-14 * Math.max(1, Math.abs(x)));
});

test('the integral to 0 is pi^2/12', () => {
  expectNear(softplusIntegral(0), Math.PI ** 2 / 12, 1e-15);
  expectNear(softplusIntegral(-1e-15), Math.PI ** 2 / 12, 1e-14);
});

test.each([
  [-8, -7],
  [-1, 0],
  [-0.5, 0.5],
  [0, 1.547],
  [1, 3],
  [20, 22],
])('the integral from %s to %s is that of a quadrature', (from, to) => {
  // Simpson's rule with 2000 steps of 0.001 or less: its error is below 1e-14 here.
  const steps = 2000;
  const h = (to - from) / steps;
  let sum = softplus(from) + softplus(to);
  for (let i = 1; i < steps; i++) sum += softplus(from + i * h) * (i % 2 === 1 ? 4 : 2);
  expectNear(softplusIntegral(to) - softplusIntegral(from), (sum * h) / 3, 2e-13);
});

test.each(PLACES)('the slope of softplus at %s is the logistic function', (x) => {
  if (Math.abs(x) > 40) return;
  const h = 1e-5;
  // The central difference is good to h^2 and to the last digits over h.
  expect(Math.abs((softplus(x + h) - softplus(x - h)) / (2 * h) - logistic(x))).toBeLessThan(1e-9);
});
