import { expect, test } from 'vitest';
import { regularisedGamma } from '../../sim/engine/gamma.js';
import { normalBelow, normalBeyond, normalQuantile } from '../../sim/engine/normal.js';

test('both tails are the regularised gamma function’s: absolutely to 15 digits, relatively to 8 in the far tail', () => {
  // P(Z > z) = Q(1/2, z^2/2) / 2.
  for (let z = 0.01; z < 37; z *= 1.07) {
    const tail = regularisedGamma(0.5, (z * z) / 2, true) / 2;
    expect(Math.abs(normalBeyond(z) - tail)).toBeLessThan(1e-15);
    // The published coefficients aim at the absolute error; at 5 sqrt(2) the relative one is largest.
    expect(Math.abs(normalBeyond(z) / tail - 1)).toBeLessThan(1e-8);
    expect(normalBelow(-z)).toBe(normalBeyond(z));
    expect(normalBelow(z)).toBe(1 - normalBeyond(z));
  }
});

test('undoes the quantile', () => {
  for (const p of [1e-12, 0.001, 0.2, 0.5, 0.8, 0.999])
    expect(normalBelow(normalQuantile(p))).toBeCloseTo(p, 13);
});

test('half lies on each side of 0', () => {
  expect(normalBelow(0)).toBeCloseTo(0.5, 15);
  expect(normalBeyond(0)).toBeCloseTo(0.5, 15);
});
