/** The share of times up to a time, law by law: closed forms, a reference library (jStat 1.9), and the quantiles put back in. */

import library from 'jstat';
import { describe, expect, test } from 'vitest';
import { gammaLaw } from '../../sim/engine/gamma-law.js';
import {
  exponentialLaw,
  fixedLaw,
  type Law,
  lognormalLaw,
  observedLaw,
  triangularLaw,
  weibullLaw,
} from '../../sim/engine/laws.js';

const { jStat } = library;

const MEANS = [0.5, 3, 24];
const SPREADS = [0.02, 0.1, 0.25, 0.5, 1, 2];
/** Times as multiples of the mean, far into both tails for small spreads. */
const TIMES = [0.01, 0.3, 0.7, 0.9, 0.97, 1, 1.03, 1.1, 1.4, 2, 5];

function each(check: (mean: number, cv: number, t: number) => void): void {
  for (const mean of MEANS)
    for (const cv of SPREADS) for (const times of TIMES) check(mean, cv, times * mean);
}

describe('against the reference library', () => {
  test('lognormal', () =>
    each((mean, cv, t) => {
      const sigma = Math.sqrt(Math.log(1 + cv * cv));
      const there = jStat.lognormal.cdf(t, Math.log(mean) - sigma ** 2 / 2, sigma);
      // Both work in doubles; what the library loses in its error function stays below.
      expect(Math.abs(lognormalLaw(mean, cv).share(t) - there)).toBeLessThan(1e-13);
    }));

  test('gamma', () =>
    each((mean, cv, t) => {
      const there = jStat.gamma.cdf(t, 1 / cv ** 2, mean * cv ** 2);
      // Measured, they differ by at most 9.4e-11: at shape 2500 (CV 0.02), where ln Gamma is 17 000.
      expect(Math.abs(gammaLaw(mean, cv).share(t) - there)).toBeLessThan(1e-10);
    }));
});

describe('closed forms', () => {
  test('exponential: 1 - e^(-t/mean)', () => {
    const { share } = exponentialLaw(24);
    expect(share(24)).toBeCloseTo(1 - Math.exp(-1), 15);
    // Without loss of digits near 0: t/mean - (t/mean)^2/2.
    expect(share(24e-9) / (1e-9 - 5e-19)).toBeCloseTo(1, 15);
  });

  test('triangular about 10 with half width 3: by the area of the triangle', () => {
    const { share } = triangularLaw(10, 3 / 10 / Math.sqrt(6));
    expect(share(7)).toBeCloseTo(0, 14);
    expect(share(8)).toBeCloseTo(1 / 18, 14);
    expect(share(10)).toBeCloseTo(1 / 2, 14);
    expect(share(12)).toBeCloseTo(17 / 18, 14);
    expect(share(13)).toBeCloseTo(1, 14);
    expect([share(6.9), share(13.1)]).toEqual([0, 1]);
  });

  test('fixed: none before the mean, all at it', () => {
    const { share } = fixedLaw(24);
    expect([share(23.999), share(24), share(25)]).toEqual([0, 1, 1]);
  });

  test('observed: how many of the list are no longer', () => {
    const { share } = observedLaw([12, 11, 14, 12]);
    expect([10, 11, 11.5, 12, 13.9, 14, 99].map(share)).toEqual([0, 0.25, 0.25, 0.75, 0.75, 1, 1]);
  });

  test('no time is negative, and none lasts for ever', () => {
    for (const law of [
      lognormalLaw(24, 0.1),
      gammaLaw(24, 0.1),
      gammaLaw(24, 0.001),
      weibullLaw(24, 0.1),
      triangularLaw(24, 0.1),
      exponentialLaw(24),
      fixedLaw(24),
      observedLaw([24]),
    ]) {
      expect([law.share(-1), law.share(0), law.share(Infinity)]).toEqual([0, 0, 1]);
    }
  });
});

test.each([0.001, 0.0031, 0.02, 0.1, 0.25, 0.4, 1, 2])(
  'the share up to the quantile of u is u, at CV %d',
  (cv) => {
    const laws: Law[] = [lognormalLaw(24, cv), gammaLaw(24, cv), weibullLaw(24, cv)];
    if (cv < 0.4) laws.push(triangularLaw(24, cv));
    for (const law of laws) {
      for (const u of [1e-9, 1e-6, 0.001, 0.1, 0.5, 0.9, 0.999, 1 - 1e-6]) {
        // A quantile has 16 digits, and with a CV of 0.001 a relative step in time is 400 times as large a step in the share.
        expect(Math.abs(law.share(law.quantile(u)) - u)).toBeLessThan(1e-11);
      }
    }
  },
);
