/**
 * Distributions of times: quantiles (one uniform number in, one time out), and the share of all times up to a time.
 *
 * One uniform a draw keeps plans comparable: the same luck gives the slow plant whatever its distribution is. Each
 * law is matched to a mean and a coefficient of variation (CV: standard deviation over mean), in the unit of the
 * mean. Parameters by the method of moments, from the textbook moments of each law. The gamma law has a file of its own.
 */

import { HALF_LN_2PI, lnGamma } from './gamma.js';
import { normalBelow, normalBeyond, normalQuantile, normalQuantiles } from './normal.js';
import { power } from './power.js';
import { upperGamma } from './upper-gamma.js';

/** A distribution of positive times. */
export interface Law {
  /** @param u above 0 and below 1 @returns the time below which a share u of all times lies */
  readonly quantile: (u: number) => number;
  /** Replace the uniform numbers in `values[0 .. n-1]` by their quantiles. The loop is the law's own, for speed. */
  readonly fill: (values: Float64Array, n: number) => void;
  /** @param t any number @returns P(T <= t): the share of all times that are at most `t` */
  readonly share: (t: number) => number;
}

/** A law that can be fitted to times that were seen. Each function takes a finite time above 0. */
export interface FittedLaw extends Law {
  /** P(T > t), right where it is small. */
  readonly beyond: (t: number) => number;
  /** ln of the density [1/unit of the mean] */
  readonly logDensity: (t: number) => number;
  /**
   * P(U T <= t) for a U that is uniform from 0 to 1 and knows nothing of T: of something that ends at a random moment of
   * its time, the chance that it has ended by t. It is P(T <= t) + t E[1/T; T > t], which has a closed form for each of
   * these laws: the law of T, weighted by 1/T, is of the same family (lognormal, gamma) or an incomplete gamma function
   * (Weibull).
   */
  readonly endedBy: (t: number) => number;
}

/** @param share of a finite `t` above 0 @returns the share of any `t`: no time is shorter, and none lasts for ever */
export function shareOfAny(share: Law['share']): Law['share'] {
  return (t) => (t > 0 ? (t < Infinity ? share(t) : 1) : 0);
}

/** Every time is `mean`. */
export function fixedLaw(mean: number): Law {
  positive(mean, 'mean');
  return {
    quantile: () => mean,
    fill: (values, n) => {
      values.fill(mean, 0, n);
    },
    share: shareOfAny((t) => (t >= mean ? 1 : 0)),
  };
}

/** Lognormal: ln T is normal with sigma^2 = ln(1 + CV^2) and mu = ln(mean) - sigma^2/2. */
export function lognormalLaw(mean: number, cv: number): FittedLaw {
  positive(mean, 'mean');
  positive(cv, 'cv');
  const variance = Math.log1p(cv * cv);
  const sigma = Math.sqrt(variance);
  const mu = Math.log(mean) - variance / 2;
  const z = (t: number): number => (Math.log(t) - mu) / sigma;
  // E[1/T] = e^(-mu + sigma^2/2); weighted by 1/T, ln T is normal about mu - sigma^2.
  const inverse = Math.exp(variance / 2 - mu);
  return {
    quantile: (u) => Math.exp(mu + sigma * normalQuantile(u)),
    fill: (values, n) => {
      normalQuantiles(values, n);
      for (let i = 0; i < n; i++) values[i] = Math.exp(mu + sigma * values[i]!);
    },
    share: shareOfAny((t) => normalBelow(z(t))),
    beyond: (t) => normalBeyond(z(t)),
    logDensity: (t) => -0.5 * z(t) ** 2 - HALF_LN_2PI - Math.log(sigma * t),
    endedBy: (t) => normalBelow(z(t)) + t * inverse * normalBeyond(z(t) + sigma),
  };
}

/** Exponential: -mean ln(1 - u). Its CV is 1. */
export function exponentialLaw(mean: number): Law {
  positive(mean, 'mean');
  return {
    quantile: (u) => -mean * Math.log1p(-u),
    fill: (values, n) => {
      for (let i = 0; i < n; i++) values[i] = -mean * Math.log1p(-values[i]!);
    },
    share: shareOfAny((t) => -Math.expm1(-t / mean)),
  };
}

/** Weibull: scale (-ln(1 - u))^(1/k), with k from CV^2 = Gamma(1 + 2/k)/Gamma(1 + 1/k)^2 - 1. */
export function weibullLaw(mean: number, cv: number): FittedLaw {
  positive(mean, 'mean');
  const k = weibullShape(cv);
  const scale = mean / Math.exp(lnGamma(1 + 1 / k));
  const inverse = 1 / k;
  const x = (t: number): number => power(t / scale, k);
  return {
    quantile: (u) => scale * power(-Math.log1p(-u), inverse),
    fill: (values, n) => {
      for (let i = 0; i < n; i++) values[i] = scale * power(-Math.log1p(-values[i]!), inverse);
    },
    share: shareOfAny((t) => -Math.expm1(-x(t))),
    beyond: (t) => Math.exp(-x(t)),
    logDensity: (t) => Math.log(k / scale) + (k - 1) * Math.log(t / scale) - x(t),
    endedBy: (t) => -Math.expm1(-x(t)) + (t / scale) * upperGamma(1 - inverse, x(t)),
  };
}

/** Largest CV of a symmetric triangle that stays above 0: 1/sqrt(6). */
export const TRIANGULAR_CV_LIMIT = 1 / Math.sqrt(6);

/** Symmetric triangle about the mean, half as wide as sqrt(6) standard deviations. @throws RangeError at or over the limit */
export function triangularLaw(mean: number, cv: number): Law {
  positive(mean, 'mean');
  if (!(cv > 0 && cv < TRIANGULAR_CV_LIMIT)) {
    throw new RangeError(`cv of a triangular law must be above 0 and below ${TRIANGULAR_CV_LIMIT}: ${cv}`);
  }
  const half = Math.sqrt(6) * cv * mean;
  const low = mean - half;
  const high = mean + half;
  const quantile = (u: number): number =>
    u < 0.5 ? low + half * Math.sqrt(2 * u) : high - half * Math.sqrt(2 * (1 - u));
  return {
    quantile,
    fill: (values, n) => {
      for (let i = 0; i < n; i++) {
        const u = values[i]!;
        values[i] = u < 0.5 ? low + half * Math.sqrt(2 * u) : high - half * Math.sqrt(2 * (1 - u));
      }
    },
    share: shareOfAny((t) => {
      if (t >= high) return 1;
      return t < mean ? Math.max(0, (t - low) / half) ** 2 / 2 : 1 - ((high - t) / half) ** 2 / 2;
    }),
  };
}

/** The listed times, each equally likely. */
export function observedLaw(times: readonly number[]): Law {
  if (times.length === 0) throw new RangeError('observed times must not be an empty list');
  for (const time of times) positive(time, 'observed time');
  // Sorted, so that a larger uniform number gives a longer time here too.
  const sorted = Float64Array.from(times).sort();
  const count = sorted.length;
  return {
    quantile: (u) => sorted[Math.floor(u * count)]!,
    fill: (values, n) => {
      for (let i = 0; i < n; i++) values[i] = sorted[Math.floor(values[i]! * count)]!;
    },
    share: shareOfAny((t) => {
      let low = 0;
      let high = count;
      while (low < high) {
        const middle = (low + high) >> 1;
        if (sorted[middle]! <= t) low = middle + 1;
        else high = middle;
      }
      return low / count;
    }),
  };
}

/** Below it the difference of ln Gamma loses too many digits, and its power series has them all. */
const NARROW = 1e-3;

/** k of a Weibull law with this CV. */
function weibullShape(cv: number): number {
  positive(cv, 'cv');
  if (cv < NARROW) return narrowWeibullShape(cv);
  const target = Math.log1p(cv * cv);
  const excess = (k: number): number => lnGamma(1 + 2 / k) - 2 * lnGamma(1 + 1 / k) - target;
  // The CV falls with k; 1.28/CV is its limit for small CV, and a CV of 2 needs k = 0.54.
  let low = 0.2;
  let high = 2 + 2 / cv;
  for (let i = 0; i < 200 && high - low > 1e-15 * high; i++) {
    const middle = (low + high) / 2;
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Of powers of y = 1/k in ln Gamma(1 + 2y) - 2 ln Gamma(1 + y) = ln(1 + CV^2): (-1)^n zeta(n) (2^n - 2)/n, from n = 2. */
const ZETA = [
  1.6449340668482264, 1.2020569031595942, 1.0823232337111381, 1.03692775514337, 1.0173430619844492,
];
const SERIES = ZETA.map((zeta, i) => ((i % 2 === 0 ? 1 : -1) * zeta * (2 ** (i + 2) - 2)) / (i + 2));

/**
 * The same for a small CV, by the series of ln Gamma about 1 (Abramowitz & Stegun 6.1.33, from memory): with five terms to
 * 1e-14 of k.
 */
function narrowWeibullShape(cv: number): number {
  const target = Math.sqrt(Math.log1p(cv * cv));
  let y = target / Math.sqrt(SERIES[0]!);
  // The root of the sum of the others is nearly 1: each step gains three digits and more.
  for (let i = 0; i < 8; i++) {
    let sum = 0;
    for (let n = SERIES.length - 1; n >= 0; n--) sum = sum * y + SERIES[n]!;
    y = target / Math.sqrt(sum);
  }
  return 1 / y;
}

/** @throws RangeError unless `value` is a finite number above 0 */
export function positive(value: number, what: string): void {
  if (!(value > 0 && value < Infinity))
    throw new RangeError(`${what} must be a finite number above 0: ${value}`);
}
