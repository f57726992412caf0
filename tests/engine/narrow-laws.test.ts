/**
 * Laws with next to no spread. There the standardised time, (T - mean)/(mean CV), has a law without parameters: the standard
 * normal one, and for a Weibull time that of the smallest extreme, whose mean is Euler's constant below its scale and whose
 * variance is pi^2/6 (textbook limits).
 */

import { describe, expect, test } from 'vitest';
import { gammaLaw } from '../../sim/engine/gamma-law.js';
import { lognormalLaw, triangularLaw, weibullLaw } from '../../sim/engine/laws.js';
import { normalQuantile } from '../../sim/engine/normal.js';
import { lawOf } from '../../sim/models/growth.js';

const EULER = 0.5772156649015329;
const smallestExtreme = (u: number): number => (Math.log(-Math.log1p(-u)) + EULER) * (Math.sqrt(6) / Math.PI);
const triangle = (u: number): number =>
  Math.sqrt(6) * (u < 0.5 ? Math.sqrt(2 * u) - 1 : 1 - Math.sqrt(2 * (1 - u)));

const LAWS = [
  ['lognormal', lognormalLaw, normalQuantile],
  ['gamma', gammaLaw, normalQuantile],
  ['weibull', weibullLaw, smallestExtreme],
  ['triangular', triangularLaw, triangle],
] as const;
const SHARES = [2 ** -33, 0.001, 0.3, 0.5, 0.9, 1 - 2 ** -33];
const SPREADS = [3e-3, 1.1e-3, 9e-4, 1e-5, 1e-7, 1.5e-8, 1.2e-8, 1e-9, 1e-13];

describe.each(LAWS)('%s', (_, lawWith, standard) => {
  test.each(SPREADS)('with CV %s', (cv) => {
    const law = lawWith(3, cv);
    const drawn = Float64Array.from(SHARES);
    law.fill(drawn, SHARES.length);
    SHARES.forEach((u, i) => {
      // The next term of the expansion in CV is of the order of CV z^2 (of a Weibull time z is -12 at the least); a time has
      // some 16 digits, of which those of CV are what is left.
      const near = 150 * cv + 1e-14 / cv;
      for (const time of [law.quantile(u), drawn[i]!]) {
        expect(Math.abs((time / 3 - 1) / cv - standard(u))).toBeLessThan(near);
        const share = law.share(time);
        // The steepest of these laws rises by 0.42 a standard deviation.
        expect(Math.abs(share - u)).toBeLessThan(0.5 * near);
      }
    });
  });
});

test('where the series of the Weibull shape begins it is the shape that the gamma function gives', () => {
  const [below, above] = [1e-3 * (1 - 1e-9), 1e-3 * (1 + 1e-9)].map((cv) => weibullLaw(1, cv).quantile(0.01));
  // ln Gamma is right to 1e-15, of which the series of CV^2 = 1e-6 leaves 9 digits; times CV that is 1e-12 of a time.
  expect(Math.abs(below! - above!)).toBeLessThan(2e-11);
});

test.each(['lognormal', 'gamma', 'weibull', 'triangular'] as const)(
  '%s: no spread that can be told from none draws as a fixed one',
  (shape) => {
    for (const [days, spread] of [
      [3, 5e-324],
      [3650, 1e-18],
      [6e-8, 1e-300],
    ] as const) {
      const values = Float64Array.from(SHARES);
      lawOf({ shape, days, spread, times: [] }).fill(values, values.length);
      expect([...values]).toEqual(SHARES.map(() => days));
    }
  },
);
