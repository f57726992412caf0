/**
 * Quantiles to 10 digits computed independently, the further digits by another program of the same algorithm. The
 * reference library is jStat 1.9: measured, the two differ by at most 4.4e-9 relative over the range below.
 */

import library from 'jstat';
import { describe, expect, test } from 'vitest';
import { normalQuantile } from '../../sim/engine/normal.js';

const { jStat } = library;

describe('the quantile function of the standard normal distribution', () => {
  test.each([
    [0.5, 0],
    [0.975, 1.959963984540054],
    [0.9, 1.2815515655446004],
    [0.95, 1.6448536269514722],
    [0.99, 2.3263478740408408],
    [0.995, 2.5758293035489004],
  ])('at %d is %d', (p, z) => {
    expect(normalQuantile(p)).toBeCloseTo(z, 14);
  });

  test.each([
    [1e-12, -7.03448382530113],
    [1e-20, -9.26234008979841],
    [1e-50, -14.9333375347885],
    [1e-100, -21.2734535609653],
    [1e-200, -30.2055941795796],
    [1e-300, -37.0470962993612],
  ])('far down the lower tail, at %d, is %d, by 60-digit arithmetic', (p, z) => {
    expect(Math.abs(normalQuantile(p) / z - 1)).toBeLessThan(1e-14);
  });

  test('is that of the reference library from 1e-10 to 1 - 1e-10', () => {
    for (let e = -10; e < -0.3; e += 0.1) {
      const p = 10 ** e;
      // The library goes through its inverse of erfc, whose own error grows in the tails.
      expect(Math.abs(normalQuantile(p) / jStat.normal.inv(p, 0, 1) - 1)).toBeLessThan(1e-8);
      expect(Math.abs(normalQuantile(1 - p) / jStat.normal.inv(1 - p, 0, 1) - 1)).toBeLessThan(1e-8);
    }
  });

  test('undoes the distribution function, here an integral of the density, to 12 digits', () => {
    // P(0 < Z < z) by Simpson's rule with 2000 steps: error about z^5 / (180 x 2000^4) < 1e-12.
    const between = (z: number): number => {
      const n = 2000;
      const density = (x: number): number => Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI);
      let sum = density(0) + density(z);
      for (let i = 1; i < n; i++) sum += (i % 2 === 1 ? 4 : 2) * density((z * i) / n);
      return (sum * z) / n / 3;
    };
    for (let z = 0.1; z < 5; z += 0.1) {
      // In the upper tail 1 - p has lost digits; the lower tail has not, and is its mirror.
      const tail = 0.5 - between(z);
      const slope = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
      expect(Math.abs(normalQuantile(tail) + z) * slope).toBeLessThan(1e-12);
    }
  });

  test('is odd about 1/2 and rises', () => {
    let before = -Infinity;
    for (let k = 1; k < 1024; k++) {
      const z = normalQuantile(k / 1024);
      expect(z).toBeGreaterThan(before);
      expect(normalQuantile(1 - k / 1024)).toBeCloseTo(-z, 14);
      before = z;
    }
  });

  test('joins its three pieces without a jump', () => {
    // |p - 1/2| = 0.425, and sqrt(-ln p) = 5.
    for (const seam of [0.075, Math.exp(-25)]) {
      const left = normalQuantile(seam * (1 - 1e-12));
      const right = normalQuantile(seam * (1 + 1e-12));
      const slope = 1 / (Math.exp((-left * left) / 2) / Math.sqrt(2 * Math.PI));
      expect(Math.abs(right - left - 2e-12 * seam * slope)).toBeLessThan(1e-14 * Math.abs(left));
    }
  });
});
