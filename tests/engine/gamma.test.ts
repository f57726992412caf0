/** Exact values of the gamma function; the reference library is jStat 1.9: measured, P differs by at most 9e-11. */

import library from 'jstat';
import { describe, expect, test } from 'vitest';
import { gammaQuantile, lnGamma, regularisedGamma } from '../../sim/engine/gamma.js';

const { jStat } = library;

describe('ln Gamma', () => {
  test('is the logarithm of the factorial at whole numbers', () => {
    let factorial = 1;
    for (let n = 1; n <= 20; n++) {
      // Factorials up to 18! are exact in doubles.
      expect(lnGamma(n)).toBeCloseTo(Math.log(factorial), 12);
      factorial *= n;
    }
  });

  test('is that of sqrt(pi) times odd numbers over powers of two at halves', () => {
    expect(lnGamma(0.5)).toBeCloseTo(Math.log(Math.sqrt(Math.PI)), 13);
    expect(lnGamma(1.5)).toBeCloseTo(Math.log(Math.sqrt(Math.PI) / 2), 13);
    expect(lnGamma(5.5)).toBeCloseTo(Math.log((945 / 32) * Math.sqrt(Math.PI)), 13);
  });

  test('obeys Gamma(x + 1) = x Gamma(x) and the duplication formula', () => {
    for (let x = 0.01; x < 200; x *= 1.1) {
      expect(Math.abs(lnGamma(x + 1) - lnGamma(x) - Math.log(x))).toBeLessThan(1e-11 * Math.max(1, x));
      const twice = lnGamma(x) + lnGamma(x + 0.5) + (2 * x - 1) * Math.LN2 - 0.5 * Math.log(Math.PI);
      expect(Math.abs(lnGamma(2 * x) - twice)).toBeLessThan(1e-11 * Math.max(1, x));
    }
  });

  test('refuses 0, negative numbers and what is not a number', () => {
    for (const x of [0, -1, Number.NaN]) expect(() => lnGamma(x)).toThrow(RangeError);
  });
});

describe('the regularised incomplete gamma function P(a, x)', () => {
  test('is 1 - e^-x for a = 1, and 1 - e^-x (1 + x + ... + x^(n-1)/(n-1)!) for a = n', () => {
    for (const x of [0.001, 0.5, 1, 2, 7, 30]) {
      expect(regularisedGamma(1, x)).toBeCloseTo(-Math.expm1(-x), 14);
      expect(regularisedGamma(1, x, true)).toBeCloseTo(Math.exp(-x), 14);
      let term = 1;
      let sum = 1;
      for (let k = 1; k < 5; k++) {
        term *= x / k;
        sum += term;
      }
      expect(regularisedGamma(5, x, true)).toBeCloseTo(Math.exp(-x) * sum, 14);
    }
  });

  test('is the reference library’s for shapes from 0.2 to 1000', () => {
    for (const a of [0.2, 0.5, 1, 2.5, 16, 100, 1000]) {
      for (const share of [0.3, 0.7, 0.9, 1, 1.1, 1.5, 3]) {
        expect(regularisedGamma(a, a * share)).toBeCloseTo(jStat.lowRegGamma(a, a * share), 9);
      }
    }
  });

  test('and its complement add up to 1, and the small one keeps its digits', () => {
    for (const a of [0.2, 1, 16, 100, 1000]) {
      for (const share of [0.5, 0.99, 1.01, 2]) {
        const sum = regularisedGamma(a, a * share) + regularisedGamma(a, a * share, true);
        expect(sum).toBeCloseTo(1, 13);
      }
    }
    expect(regularisedGamma(1, 40, true) / Math.exp(-40)).toBeCloseTo(1, 12);
    expect(regularisedGamma(3, 0)).toBe(0);
    expect(regularisedGamma(3, 0, true)).toBe(1);
  });

  test('refuses what it is not defined for', () => {
    expect(() => regularisedGamma(0, 1)).toThrow(RangeError);
    expect(() => regularisedGamma(1, -1)).toThrow(RangeError);
    expect(() => regularisedGamma(1, Number.NaN)).toThrow(RangeError);
  });
});

describe('the gamma quantile', () => {
  test('undoes P(a, x), in both tails', () => {
    for (const a of [0.3, 1, 2.5, 16, 100, 4000, 99_999]) {
      // P is exp(a ln x - x - ln Gamma(a)) times a sum: rounding a ln x alone costs a ln a / 2^53, 1.3e-10 for the largest.
      const close = a > 1000 ? 1e-9 : 1e-11;
      for (const p of [1e-9, 1e-4, 0.01, 0.3, 0.5, 0.7, 0.99, 0.9999]) {
        const x = gammaQuantile(p, a);
        expect(Math.abs(regularisedGamma(a, x) / p - 1)).toBeLessThan(close);
        const far = gammaQuantile(1 - p, a, p);
        expect(Math.abs(regularisedGamma(a, far, true) / p - 1)).toBeLessThan(close);
      }
    }
  });

  test('is -ln(1 - p) for shape 1', () => {
    for (const p of [1e-9, 0.1, 0.5, 0.9, 0.999]) {
      expect(gammaQuantile(p, 1) / -Math.log1p(-p)).toBeCloseTo(1, 13);
    }
  });

  test('keeps an upper tail that is too small to be told from none by a subtraction from 1', () => {
    for (const q of [1e-17, 1e-30, 1e-100])
      expect(gammaQuantile(1 - q, 1, q) / -Math.log(q)).toBeCloseTo(1, 13);
  });

  test('refuses what is not a probability or a shape', () => {
    for (const [p, a] of [
      [0, 1],
      [-0.1, 1],
      [1, 1],
      [0.5, 0],
      [Number.NaN, 1],
    ] as const) {
      expect(() => gammaQuantile(p, a)).toThrow(RangeError);
    }
  });
});
