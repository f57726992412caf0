import { describe, expect, test } from 'vitest';
import { gammaLaw } from '../../sim/engine/gamma-law.js';
import { lognormalLaw, weibullLaw } from '../../sim/engine/laws.js';
import { upperGamma } from '../../sim/engine/upper-gamma.js';

const LAWS = { lognormal: lognormalLaw, gamma: gammaLaw, weibull: weibullLaw };

describe.each(Object.entries(LAWS))('the %s law', (_, lawOf) => {
  const cases = [0.05, 0.15, 0.6, 1.3].map((cv) => ({ cv, law: lawOf(14, cv) }));

  test('has beyond a quantile what it has not up to it', () => {
    for (const { law } of cases) {
      for (const u of [0.001, 0.1, 0.5, 0.9, 0.999]) {
        expect(law.share(law.quantile(u))).toBeCloseTo(u, 9);
        expect(law.beyond(law.quantile(u))).toBeCloseTo(1 - u, 9);
      }
    }
  });

  test('has the density that its probabilities grow by', () => {
    for (const { cv, law } of cases) {
      for (const t of [0.8, 1, 1.2].map((share) => 14 * share ** Math.min(1, 5 * cv))) {
        const step = 1e-4;
        const slope = (law.share(t + step) - law.share(t - step)) / (2 * step);
        // The central difference is wrong by step^2 f'' / 6, and f'' is at most about f / (cv mean)^2.
        expect(Math.abs(Math.exp(law.logDensity(t)) / slope - 1)).toBeLessThan(1e-6);
      }
    }
  });

  test('ends what ends at a uniform moment of its time: P(U T <= t) is the mean of P(T <= t/u) over u', () => {
    for (const { law } of cases) {
      for (const t of [2, 7, 13, 20, 40]) {
        // Midpoints of 200 000 parts: the integrand is monotone, so the error is at most 1/200 000 and far
        // less in fact.
        const parts = 200_000;
        let sum = 0;
        for (let i = 0; i < parts; i++) sum += law.share(t / ((i + 0.5) / parts));
        expect(law.endedBy(t)).toBeCloseTo(sum / parts, 6);
      }
    }
  });

  test('ends none at first and all in the end', () => {
    for (const { law } of cases) {
      expect(law.endedBy(1e-9)).toBeLessThan(1e-5);
      expect(law.endedBy(1e4)).toBeCloseTo(1, 3);
    }
  });
});

test('the Weibull law with a CV of 1 is the exponential law, whose ends at a random moment are known in closed form', () => {
  const law = weibullLaw(10, 1);
  for (const t of [1, 10, 25]) {
    expect(law.beyond(t)).toBeCloseTo(Math.exp(-t / 10), 12);
    expect(law.endedBy(t)).toBeCloseTo(1 - Math.exp(-t / 10) + (t / 10) * upperGamma(0, t / 10), 12);
  }
});

test('tails keep their digits: far beyond, the probability is small and not 0', () => {
  const law = lognormalLaw(14, 0.1);
  expect(law.beyond(28)).toBeGreaterThan(0);
  expect(law.beyond(28)).toBeLessThan(1e-11);
});
