/**
 * Growth-time laws from mean and spread. Quantiles computed independently to 12 digits and more (30-digit
 * arithmetic, and a second library); the reference library is jStat 1.9.
 */

import library from 'jstat';
import { describe, expect, test } from 'vitest';
import { gammaLaw } from '../../sim/engine/gamma-law.js';
import {
  exponentialLaw,
  fixedLaw,
  type Law,
  lognormalLaw,
  observedLaw,
  TRIANGULAR_CV_LIMIT,
  triangularLaw,
  weibullLaw,
} from '../../sim/engine/laws.js';
import { fillUniform, stream } from '../../sim/engine/random.js';
import { lawOf } from '../../sim/models/growth.js';

const { jStat } = library;

function relative(a: number, b: number): number {
  return Math.abs(a / b - 1);
}

const laws = { lognormal: lognormalLaw, gamma: gammaLaw, weibull: weibullLaw, triangular: triangularLaw };

describe('quantiles at 5, 50 and 95 %, to 12 digits', () => {
  test.each([
    { law: 'lognormal', mean: 24, cv: 0.1, quantiles: [20.267169343064, 23.88089256504, 28.138958137149] },
    { law: 'gamma', mean: 24, cv: 0.1, quantiles: [20.193426532395, 23.920047580636, 28.079312267079] },
    { law: 'weibull', mean: 24, cv: 0.1, quantiles: [19.605295256862, 24.289252886852, 27.39797793582] },
    { law: 'triangular', mean: 24, cv: 0.1, quantiles: [19.9802566235, 24, 28.0197433765] },
    { law: 'lognormal', mean: 10, cv: 0.25, quantiles: [6.4706450902852, 9.7014250014533, 14.545326740317] },
    { law: 'gamma', mean: 10, cv: 0.25, quantiles: [6.2724729576713, 9.7924559651983, 14.435706100087] },
    { law: 'weibull', mean: 10, cv: 0.25, quantiles: [5.695182341316, 10.10307163749, 13.944478945449] },
    { law: 'triangular', mean: 10, cv: 0.25, quantiles: [5.8127673161458, 10, 14.187232683854] },
  ] as const)('$law, mean $mean, CV $cv', ({ law, mean, cv, quantiles }) => {
    const { quantile } = laws[law](mean, cv);
    [0.05, 0.5, 0.95].forEach((u, i) => {
      expect(relative(quantile(u), quantiles[i]!)).toBeLessThan(2e-13);
    });
  });

  test.each([
    { law: 'lognormal', mean: 24, cv: 0.1, quantiles: [18.935194537597, 30.118361264818] },
    { law: 'gamma', mean: 24, cv: 0.1, quantiles: [18.771835932911, 29.933414757773] },
    { law: 'weibull', mean: 24, cv: 0.1, quantiles: [17.144630130221, 28.384675717543] },
    { law: 'triangular', mean: 24, cv: 0.1, quantiles: [18.952609004953, 29.047390995047] },
    { law: 'lognormal', mean: 10, cv: 0.25, quantiles: [5.4710898255807, 17.202723782521] },
    { law: 'gamma', mean: 10, cv: 0.25, quantiles: [5.1131923586456, 16.714303698824] },
    { law: 'weibull', mean: 10, cv: 0.25, quantiles: [3.9779827301135, 15.329041505861] },
    { law: 'triangular', mean: 10, cv: 0.25, quantiles: [4.7423010468265, 15.257698953174] },
  ] as const)('$law, mean $mean, CV $cv: at 1 and 99 % too', ({ law, mean, cv, quantiles }) => {
    const { quantile } = laws[law](mean, cv);
    expect(relative(quantile(0.01), quantiles[0])).toBeLessThan(2e-13);
    expect(relative(quantile(0.99), quantiles[1])).toBeLessThan(2e-13);
  });

  test('exponential: -mean ln(1 - u)', () => {
    const { quantile } = exponentialLaw(24);
    expect(quantile(0.5)).toBeCloseTo(24 * Math.LN2, 12);
    expect(relative(quantile(2 ** -33), 24 * 2 ** -33)).toBeLessThan(1e-9);
  });

  test('fixed: always the mean', () => {
    for (const u of [2 ** -33, 0.5, 1 - 2 ** -33]) expect(fixedLaw(24).quantile(u)).toBe(24);
  });
});

/** Uniform numbers as the simulator draws them, with the two extremes that it can draw. */
const CELL = 2 ** -32;
const EXTREMES = [CELL / 2, 1.5 * CELL, 1e-6, 1 - 1e-6, 1 - 1.5 * CELL, 1 - CELL / 2];

function uniforms(n: number): Float64Array {
  const values = new Float64Array(n);
  fillUniform(stream(7, 0, ['uniforms']), values, n);
  values.set(EXTREMES);
  return values;
}

const MEANS = [0.5, 3, 24];
const SPREADS = [0.02, 0.1, 0.25, 0.5, 1, 2];

describe('against the reference library, for means from 0.5 to 24 d, CVs from 0.02 to 2', () => {
  const shares = [0.001, 0.01, 0.1, 0.3, 0.5, 0.7, 0.9, 0.99, 0.999];

  function each(check: (mean: number, cv: number, u: number) => void): void {
    for (const mean of MEANS) for (const cv of SPREADS) for (const u of shares) check(mean, cv, u);
  }

  test('lognormal', () =>
    each((mean, cv, u) => {
      const sigma = Math.sqrt(Math.log(1 + cv * cv));
      const mu = Math.log(mean) - sigma ** 2 / 2;
      expect(relative(lognormalLaw(mean, cv).quantile(u), jStat.lognormal.inv(u, mu, sigma))).toBeLessThan(
        1e-12,
      );
    }));

  test('gamma', () =>
    each((mean, cv, u) => {
      const there = jStat.gamma.inv(u, 1 / cv ** 2, mean * cv ** 2);
      // Measured, the two differ by 1.3e-11 relative up to CV 1; near 0, at larger CVs, only an absolute bound holds.
      const off = Math.abs(gammaLaw(mean, cv).quantile(u) - there);
      expect(off).toBeLessThan(1e-9 * there + 1e-8 * mean * cv ** 2);
    }));

  test('weibull: shape from the CV by bisection here, put back into the formula for the CV', () =>
    each((mean, cv, u) => {
      const { quantile } = weibullLaw(mean, cv);
      // Shape and scale from two quantiles: ln t = ln scale + ln(-ln(1 - u)) / k.
      const lower = Math.log(-Math.log1p(-0.25));
      const upper = Math.log(-Math.log1p(-0.75));
      const k = (upper - lower) / Math.log(quantile(0.75) / quantile(0.25));
      const scale = quantile(0.75) / Math.exp(upper / k);
      const g1 = Math.exp(jStat.gammaln(1 + 1 / k));
      const g2 = Math.exp(jStat.gammaln(1 + 2 / k));
      expect(relative(scale * g1, mean)).toBeLessThan(1e-9);
      expect(Math.sqrt(g2 / g1 ** 2 - 1)).toBeCloseTo(cv, 7);
      expect(relative(quantile(u), jStat.weibull.inv(u, scale, k))).toBeLessThan(1e-9);
    }));
});

describe('fill() is quantile(), one number after the other', () => {
  const random = uniforms(4000);

  function expectFillIsQuantile({ quantile, fill }: Law, tolerance: number): void {
    const times = random.slice();
    fill(times, times.length);
    let worst = 0;
    times.forEach((t, i) => {
      worst = Math.max(worst, relative(t, quantile(random[i]!)));
    });
    expect(worst).toBeLessThanOrEqual(tolerance);
  }

  test('to the last digit for every law with a closed form', () => {
    for (const cv of [0.02, 0.1, 0.25, 0.4]) {
      for (const law of [lognormalLaw, weibullLaw, triangularLaw]) expectFillIsQuantile(law(24, cv), 0);
    }
    expectFillIsQuantile(exponentialLaw(24), 0);
    expectFillIsQuantile(fixedLaw(24), 0);
    expectFillIsQuantile(observedLaw([3, 1, 4, 1, 5]), 0);
  });

  test.each([0.001, 0.0031, 0.0032, 0.02, 0.1, 0.25, 0.5, 1, 1.5, 2])(
    'to 1e-8 for the table of the gamma law with CV %d, over 32-bit uniform numbers and their extremes',
    (cv) => {
      expectFillIsQuantile(gammaLaw(24, cv), 1e-8);
    },
  );

  test('and touches nothing behind the n-th', () => {
    const ofSpread = Object.values(laws).map((law) => law(5, 0.2));
    for (const law of [...ofSpread, exponentialLaw(5), fixedLaw(5), observedLaw([5])]) {
      const values = new Float64Array([0.5, 0.5, 0.25]);
      law.fill(values, 2);
      expect(values[2]).toBe(0.25);
    }
  });
});

describe('the mean and the spread that were asked for', () => {
  /** Moments by the midpoint rule over u: n cells; the tails of long-tailed laws are cut off at half a cell. */
  function moments({ quantile }: Law, n = 200_000): [number, number] {
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < n; i++) {
      const t = quantile((i + 0.5) / n);
      sum += t;
      squares += t * t;
    }
    const mean = sum / n;
    return [mean, Math.sqrt(squares / n - mean * mean) / mean];
  }

  test.each(Object.entries(laws))('%s', (_name, law) => {
    for (const cv of [0.05, 0.1, 0.25, 0.4]) {
      const [mean, spread] = moments(law(24, cv), 50_000);
      expect(relative(mean, 24)).toBeLessThan(1e-4);
      expect(relative(spread, cv)).toBeLessThan(2e-3);
    }
  });

  test('exponential: its spread is 1', () => {
    const [mean, spread] = moments(exponentialLaw(24));
    expect(relative(mean, 24)).toBeLessThan(1e-4);
    expect(relative(spread, 1)).toBeLessThan(1e-3);
  });

  test('skewness of lognormal, gamma and weibull with CV 0.1: 0.301, 0.2 and -0.715', () => {
    const skewness = ({ quantile }: Law): number => {
      const n = 50_000;
      let sum = 0;
      for (let i = 0; i < n; i++) sum += ((quantile((i + 0.5) / n) - 24) / 2.4) ** 3;
      return sum / n;
    };
    expect(skewness(lognormalLaw(24, 0.1))).toBeCloseTo(0.301, 2);
    expect(skewness(gammaLaw(24, 0.1))).toBeCloseTo(0.2, 2);
    expect(skewness(weibullLaw(24, 0.1))).toBeCloseTo(-0.715470968358, 2);
  });
});

describe('observed times', () => {
  const { quantile } = observedLaw([9, 4, 7, 4]);

  test('each is equally likely, the shortest first, so that more luck is always a longer time', () => {
    expect([0.01, 0.24, 0.26, 0.49, 0.51, 0.74, 0.76, 0.99].map(quantile)).toEqual([4, 4, 4, 4, 7, 7, 9, 9]);
  });

  test('the extremes of the uniform numbers stay in the list', () => {
    expect(quantile(CELL / 2)).toBe(4);
    expect(quantile(1 - CELL / 2)).toBe(9);
    // As many times as can be told apart, and more than a table would be.
    const many = observedLaw(Array.from({ length: 1000 }, (_, i) => i + 1));
    expect(many.quantile(1 - CELL / 2)).toBe(1000);
    expect(many.quantile(CELL / 2)).toBe(1);
  });
});

describe('every law rises with u and stays above 0', () => {
  test.each([
    ['lognormal', lognormalLaw(24, 0.3)],
    ['gamma', gammaLaw(24, 0.3)],
    ['gamma with a long tail', gammaLaw(24, 2)],
    ['weibull', weibullLaw(24, 0.3)],
    ['triangular', triangularLaw(24, 0.4)],
    ['exponential', exponentialLaw(24)],
  ])('%s', (_name, { quantile }) => {
    let before = 0;
    for (const u of [CELL / 2, ...Array.from({ length: 500 }, (_, i) => (i + 0.5) / 500), 1 - CELL / 2]) {
      const t = quantile(u);
      expect(t).toBeGreaterThan(before);
      before = t;
    }
  });
});

describe('what is refused', () => {
  test.each([0, -1, Number.NaN, Infinity])('a mean or a spread of %d', (bad) => {
    for (const law of [lognormalLaw, gammaLaw, weibullLaw, triangularLaw]) {
      expect(() => law(bad, 0.1)).toThrow(RangeError);
      expect(() => law(24, bad)).toThrow(RangeError);
    }
    expect(() => exponentialLaw(bad)).toThrow(RangeError);
    expect(() => fixedLaw(bad)).toThrow(RangeError);
    expect(() => observedLaw([3, bad])).toThrow(RangeError);
  });

  test('a triangle that would reach 0, and no observed times at all', () => {
    expect(() => triangularLaw(24, TRIANGULAR_CV_LIMIT)).toThrow(RangeError);
    expect(() => triangularLaw(24, TRIANGULAR_CV_LIMIT - 1e-9)).not.toThrow();
    expect(() => observedLaw([])).toThrow(RangeError);
  });
});

describe('the law of a growth time', () => {
  test('is the one of its shape; a spread of 0 makes every shape fixed', () => {
    const shapes = ['lognormal', 'gamma', 'weibull', 'triangular'] as const;
    for (const shape of shapes) {
      const spread = { shape, days: 24, spread: 0.2, times: [] };
      expect(lawOf(spread).quantile(0.3)).toBe(laws[shape](24, 0.2).quantile(0.3));
      expect(lawOf({ ...spread, spread: 0 }).quantile(0.3)).toBe(24);
    }
    expect(lawOf({ shape: 'fixed', days: 24, spread: 0, times: [] }).quantile(0.3)).toBe(24);
    expect(lawOf({ shape: 'exponential', days: 24, spread: 1, times: [] }).quantile(0.5)).toBeCloseTo(
      16.64,
      2,
    );
    expect(lawOf({ shape: 'observed', days: 2, spread: 0.5, times: [1, 3] }).quantile(0.7)).toBe(3);
  });
});
