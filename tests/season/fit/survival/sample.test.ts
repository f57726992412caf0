/**
 * Maximum likelihood on public data against R.
 *
 * The expected values were computed with survreg of R's package survival 3.5-3 (gamma: optim in R 4.2.2), and
 * again with independent Python code whose log-likelihoods agree to 1e-10. survreg prints shape and scale
 * (Weibull) or mean and deviation of the logarithm (lognormal); mean and CV follow by the textbook moments.
 */

import { describe, expect, test } from 'vitest';
import { lnGamma } from '../../../../sim/engine/gamma.js';
import { type FittedShape, fittedLaw } from '../../../../sim/season/fit/survival/laws.js';
import { maximise } from '../../../../sim/season/fit/survival/maximise.js';
import { type Censored, fitSample, sampleLikelihood } from '../../../../sim/season/fit/survival/sample.js';
import {
  asSample,
  EVERY_THREE_DAYS,
  LUNG,
  MIXED,
  OVARIAN,
  OVERLAPPING,
  PLACEBO,
  SIX_MP,
} from './published.js';

interface Moments {
  readonly mean: number;
  readonly cv: number;
}

const MOMENTS: Readonly<Record<FittedShape, (a: number, b: number) => Moments>> = {
  lognormal: (mu, sd) => ({ mean: Math.exp(mu + (sd * sd) / 2), cv: Math.sqrt(Math.expm1(sd * sd)) }),
  gamma: (shape, scale) => ({ mean: shape * scale, cv: 1 / Math.sqrt(shape) }),
  weibull: (shape, scale) => ({
    mean: scale * Math.exp(lnGamma(1 + 1 / shape)),
    cv: Math.sqrt(Math.expm1(lnGamma(1 + 2 / shape) - 2 * lnGamma(1 + 1 / shape))),
  }),
};

type Row = readonly [a: number, b: number, ln: number];

/** Parameters and the logarithm of the likelihood, as printed. */
const PUBLISHED: readonly [string, Censored[], Readonly<Record<FittedShape, Row>>][] = [
  [
    '6-MP',
    asSample(SIX_MP),
    {
      weibull: [1.3537345238, 33.7651509676, -41.6586784769],
      lognormal: [3.2030676525, 0.978724793, -40.6801558699],
      gamma: [1.677009, 18.54138, -41.4394161603],
    },
  ],
  [
    'placebo',
    asSample(PLACEBO),
    {
      weibull: [1.3704998593, 9.4821412555, -64.920107589],
      lognormal: [1.8251210202, 0.9032163073, -65.9875931833],
      gamma: [1.64226, 5.277281, -65.0013799002],
    },
  ],
  [
    'lung',
    asSample(LUNG),
    {
      weibull: [1.3168401716, 417.7586653742, -1153.8511880894],
      lognormal: [5.6633049622, 1.0976392698, -1169.2690553056],
      gamma: [1.47808363, 266.1777014, -1154.7346325957],
    },
  ],
  [
    'ovarian',
    asSample(OVARIAN),
    {
      weibull: [1.1080597396, 1225.4189589286, -97.9539010471],
      lognormal: [6.7721098586, 1.2657709276, -97.1217420427],
      gamma: [1.229333, 947.718, -97.8637972343],
    },
  ],
  [
    'seen every three days',
    EVERY_THREE_DAYS,
    {
      weibull: [7.3903284612, 25.5712336594, -32.2092590302],
      lognormal: [3.1707671709, 0.1563026008, -31.6455478599],
      gamma: [42.03847, 0.5731815, -31.6179023934],
    },
  ],
  [
    'overlapping intervals',
    OVERLAPPING,
    {
      weibull: [2.5943015515, 13.7399012494, -18.3157596962],
      lognormal: [2.4357313562, 0.4261267416, -17.7964637433],
      gamma: [5.87191, 2.102106, -17.9441735228],
    },
  ],
  [
    'exact, between and from below',
    MIXED,
    {
      weibull: [7.0163801421, 26.2856013051, -23.1511493492],
      lognormal: [3.1985585078, 0.156193617, -22.1872319064],
      gamma: [41.65379, 0.5945777, -22.3060786785],
    },
  ],
];

describe.each(PUBLISHED)('%s', (_, sample, rows) => {
  test.each(Object.entries(rows) as [FittedShape, Row][])('%s', (shape, [a, b, ln]) => {
    const expected = MOMENTS[shape](a, b);
    const fit = fitSample(shape, sample);
    // At the published parameters the likelihood is the published one, to its last digit but for the rounding
    // of gamma's parameters to 7 digits; at the top it hardly depends on them.
    expect(sampleLikelihood(fittedLaw(shape, expected.mean, expected.cv), sample)).toBeCloseTo(ln, 8);
    expect(fit.value).toBeCloseTo(ln, 8);
    // Printed to 10 digits; gamma, from optim, to 7.
    const digits = shape === 'gamma' ? 1e-6 : 1e-7;
    expect(Math.abs(fit.mean / expected.mean - 1)).toBeLessThan(digits);
    expect(Math.abs(fit.cv / expected.cv - 1)).toBeLessThan(digits);
  });
});

test('the exponential law is the Weibull law with a CV of 1: its rate is events over time seen', () => {
  const rows: [Censored[], number, number][] = [
    // 9 relapses in 359 weeks, 21 in 182 (sums of the published data); survreg.
    [asSample(SIX_MP), 9 / 359, -42.1748803004],
    [asSample(PLACEBO), 21 / 182, -66.3491692364],
    [asSample(LUNG), 0.0023709281, -1162.3381757875],
    [asSample(OVARIAN), 0.0007698229, -98.0322002],
    [EVERY_THREE_DAYS, 0.0377762284, -57.2039627832],
    [OVERLAPPING, 0.0725468255, -22.3122067418],
    [MIXED, 0.0336575623, -35.1309072847],
  ];
  for (const [sample, rate, ln] of rows) {
    const top = maximise(([mu]) => sampleLikelihood(fittedLaw('weibull', Math.exp(mu!), 1), sample), {
      start: [3],
      low: [-5],
      high: [10],
      enough: 1e-13,
      step: 1e-4,
    });
    expect(Math.abs(Math.exp(-top.at[0]!) / rate - 1)).toBeLessThan(1e-7);
    expect(top.value).toBeCloseTo(ln, 8);
  }
});

test('taking the visit on which a plant was found ready for its time makes times too long and spread too small', () => {
  // survreg on the same twenty plants: visit days as exact times 3.2264355024 and 0.1434033186.
  const naive = EVERY_THREE_DAYS.map(({ from, to, count }) => ({
    from: to === Infinity ? from : to,
    to,
    count,
  }));
  const fit = fitSample('lognormal', naive);
  const expected = MOMENTS.lognormal(3.2264355024, 0.1434033186);
  expect(Math.abs(fit.mean / expected.mean - 1)).toBeLessThan(1e-7);
  expect(Math.abs(fit.cv / expected.cv - 1)).toBeLessThan(1e-7);
  const right = fitSample('lognormal', EVERY_THREE_DAYS);
  expect(fit.mean / right.mean).toBeGreaterThan(1.05);
  expect(fit.cv).toBeLessThan(right.cv);
});
