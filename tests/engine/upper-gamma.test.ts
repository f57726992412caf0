import { expect, test } from 'vitest';
import { normalBeyond } from '../../sim/engine/normal.js';
import { upperGamma } from '../../sim/engine/upper-gamma.js';

/** Values computed independently with scipy 1.17 (scipy.special.exp1). */
test('Gamma(0, x) is the exponential integral E1(x)', () => {
  expect(upperGamma(0, 0.1)).toBeCloseTo(1.8229239584193906, 13);
  expect(upperGamma(0, 1)).toBeCloseTo(0.21938393439552026, 14);
  expect(upperGamma(0, 5)).toBeCloseTo(0.0011482955912753257, 15);
});

test('Gamma(-1/2, x) is that of 1/2 by the recurrence, which the normal distribution gives', () => {
  // Gamma(1/2, x) = 2 sqrt(pi) P(Z > sqrt(2 x)); Gamma(a + 1, x) = a Gamma(a, x) + x^a e^-x.
  for (const x of [0.01, 0.3, 0.99, 1, 1.01, 4, 30]) {
    const half = 2 * Math.sqrt(Math.PI) * normalBeyond(Math.sqrt(2 * x));
    const expected = (half - Math.exp(-x) / Math.sqrt(x)) / -0.5;
    // The recurrence loses as many digits as it subtracts.
    expect(Math.abs(upperGamma(-0.5, x) - expected)).toBeLessThan(1e-12 * Math.max(1, half * 2));
  }
});

test('goes smoothly through whole numbers of a', () => {
  for (const x of [0.05, 0.7, 1.5]) {
    expect(upperGamma(1e-9, x)).toBeCloseTo(upperGamma(0, x), 7);
    expect(upperGamma(-1e-9, x)).toBeCloseTo(upperGamma(0, x), 7);
  }
});

test('is 0 where a double has nothing left, also for x without end', () => {
  expect(upperGamma(0.9, 800)).toBe(0);
  expect(upperGamma(-0.4, Infinity)).toBe(0);
});
