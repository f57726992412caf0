/**
 * Distributions of times as quantile functions: one uniform number in, one time out.
 *
 * One uniform a draw keeps plans comparable: the same luck gives the slow plant whatever its distribution is. Each
 * law is matched to a mean and a coefficient of variation (CV: standard deviation over mean), in the unit of the
 * mean. Parameters by the method of moments, from the textbook moments of each law.
 */

import { gammaQuantile, lnGamma, regularisedGamma } from './gamma.js';
import { normalQuantile, normalQuantiles } from './normal.js';

/** A distribution of positive times. */
export interface Law {
  /** @param u above 0 and below 1 @returns the time below which a share u of all times lies */
  readonly quantile: (u: number) => number;
  /** Replace the uniform numbers in `values[0 .. n-1]` by their quantiles. The loop is the law's own, for speed. */
  readonly fill: (values: Float64Array, n: number) => void;
  /** @param t any number @returns the share of all times that are at most `t` */
  readonly share: (t: number) => number;
}

/** @param share of a finite `t` above 0: no time is shorter, and none lasts for ever */
function law(quantile: Law['quantile'], fill: Law['fill'], share: Law['share']): Law {
  return { quantile, fill, share: (t) => (t > 0 ? (t < Infinity ? share(t) : 1) : 0) };
}

/** Every time is `mean`. */
export function fixedLaw(mean: number): Law {
  positive(mean, 'mean');
  return law(
    () => mean,
    (values, n) => {
      values.fill(mean, 0, n);
    },
    (t) => (t >= mean ? 1 : 0),
  );
}

/** Lognormal: ln T is normal with sigma^2 = ln(1 + CV^2) and mu = ln(mean) - sigma^2/2. */
export function lognormalLaw(mean: number, cv: number): Law {
  positive(mean, 'mean');
  positive(cv, 'cv');
  const variance = Math.log1p(cv * cv);
  const sigma = Math.sqrt(variance);
  const mu = Math.log(mean) - variance / 2;
  return law(
    (u) => Math.exp(mu + sigma * normalQuantile(u)),
    (values, n) => {
      normalQuantiles(values, n);
      for (let i = 0; i < n; i++) values[i] = Math.exp(mu + sigma * values[i]!);
    },
    (t) => normalShare((Math.log(t) - mu) / sigma),
  );
}

/** Exponential: -mean ln(1 - u). Its CV is 1. */
export function exponentialLaw(mean: number): Law {
  positive(mean, 'mean');
  return law(
    (u) => -mean * Math.log1p(-u),
    (values, n) => {
      for (let i = 0; i < n; i++) values[i] = -mean * Math.log1p(-values[i]!);
    },
    (t) => -Math.expm1(-t / mean),
  );
}

/** Weibull: scale (-ln(1 - u))^(1/k), with k from CV^2 = Gamma(1 + 2/k)/Gamma(1 + 1/k)^2 - 1. */
export function weibullLaw(mean: number, cv: number): Law {
  positive(mean, 'mean');
  const k = weibullShape(cv);
  const scale = mean / Math.exp(lnGamma(1 + 1 / k));
  const power = 1 / k;
  return law(
    (u) => scale * (-Math.log1p(-u)) ** power,
    (values, n) => {
      for (let i = 0; i < n; i++) values[i] = scale * (-Math.log1p(-values[i]!)) ** power;
    },
    (t) => -Math.expm1(-((t / scale) ** k)),
  );
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
  return law(
    quantile,
    (values, n) => {
      for (let i = 0; i < n; i++) {
        const u = values[i]!;
        values[i] = u < 0.5 ? low + half * Math.sqrt(2 * u) : high - half * Math.sqrt(2 * (1 - u));
      }
    },
    (t) => {
      if (t >= high) return 1;
      return t < mean ? Math.max(0, (t - low) / half) ** 2 / 2 : 1 - ((high - t) / half) ** 2 / 2;
    },
  );
}

/** The listed times, each equally likely. */
export function observedLaw(times: readonly number[]): Law {
  if (times.length === 0) throw new RangeError('observed times must not be an empty list');
  for (const time of times) positive(time, 'observed time');
  // Sorted, so that a larger uniform number gives a longer time here too.
  const sorted = Float64Array.from(times).sort();
  const count = sorted.length;
  return law(
    (u) => sorted[Math.floor(u * count)]!,
    (values, n) => {
      for (let i = 0; i < n; i++) values[i] = sorted[Math.floor(values[i]! * count)]!;
    },
    (t) => {
      let low = 0;
      let high = count;
      while (low < high) {
        const middle = (low + high) >> 1;
        if (sorted[middle]! <= t) low = middle + 1;
        else high = middle;
      }
      return low / count;
    },
  );
}

/** Pieces of the gamma table: z of the standard normal from -Z_LIMIT to Z_LIMIT, PIECES_PER_Z a unit. */
const Z_LIMIT = 6.5;
const PIECES_PER_Z = 8;
/** Coefficients of a piece. */
const DEGREES = 6;

/**
 * Gamma: shape 1/CV^2, scale mean CV^2.
 *
 * Its quantile has no closed form and inverting it costs microseconds. So ln T is tabulated over the normal quantile
 * z(u), in which it is nearly straight, with its exact slope and curvature, and interpolated by quintic Hermite
 * pieces: relative error below 1e-8 over all 32-bit uniform numbers (tested). `quantile` inverts without the table.
 */
export function gammaLaw(mean: number, cv: number): Law {
  positive(mean, 'mean');
  positive(cv, 'cv');
  const shape = 1 / (cv * cv);
  const scale = mean / shape;
  const table = gammaTable(shape, scale);
  return law(
    (u) => scale * gammaQuantile(u, shape),
    (values, n) => {
      normalQuantiles(values, n);
      for (let i = 0; i < n; i++) {
        const place = (values[i]! + Z_LIMIT) * PIECES_PER_Z;
        const piece = place | 0;
        const s = place - piece;
        const at = DEGREES * piece;
        values[i] = Math.exp(
          table[at]! +
            s *
              (table[at + 1]! +
                s * (table[at + 2]! + s * (table[at + 3]! + s * (table[at + 4]! + s * table[at + 5]!)))),
        );
      }
    },
    (t) => gammaShare(t / scale, shape),
  );
}

/** Above this shape (spread below 0.0032) the incomplete gamma function takes long, and another form is as good. */
const NEARLY_NORMAL = 1e5;

/** Share of a gamma law of scale 1 up to x; for very large shapes by Wilson & Hilferty, as in the quantile. */
function gammaShare(x: number, shape: number): number {
  if (shape <= NEARLY_NORMAL) return regularisedGamma(shape, x);
  return normalShare(3 * Math.sqrt(shape) * (Math.cbrt(x / shape) - 1 + 1 / (9 * shape)));
}

/** P(Z <= z) of the standard normal law, right in both tails: P(Z > |z|) = Q(1/2, z^2/2) / 2. */
function normalShare(z: number): number {
  const tail = regularisedGamma(0.5, (z * z) / 2, true) / 2;
  return z < 0 ? tail : 1 - tail;
}

/** Coefficients of ln T in each piece, by powers of the way through it (0 to 1). */
function gammaTable(shape: number, scale: number): Float64Array {
  const pieces = 2 * Z_LIMIT * PIECES_PER_Z;
  const table = new Float64Array(DEGREES * pieces);
  const lnFront = lnGamma(shape);
  const step = 1 / PIECES_PER_Z;
  /** Value, slope and curvature of ln T at a knot, per step. */
  const knot = (i: number, start: number): { x: number; value: number; slope: number; bend: number } => {
    const z = i * step - Z_LIMIT;
    // P(Z > |z|) = Q(1/2, z^2/2) / 2; the smaller tail is passed on as it is, without a subtraction from 1.
    const tail = regularisedGamma(0.5, (z * z) / 2, true) / 2;
    const x =
      z < 0 ? gammaQuantile(tail, shape, 1 - tail, start) : gammaQuantile(1 - tail, shape, tail, start);
    // dx/dz = normal density / gamma density, and d ln x = dx / x.
    const slope = Math.exp(-0.5 * z * z - 0.9189385332046727 - (shape * Math.log(x) - x - lnFront));
    // The logarithm of that, differentiated once more.
    const bend = slope * (-z - (shape - x) * slope);
    return { x, value: Math.log(scale * x), slope: slope * step, bend: bend * step * step };
  };
  let left = knot(0, 0);
  for (let i = 0; i < pieces; i++) {
    const right = knot(i + 1, left.x * Math.exp(left.slope + left.bend / 2));
    const rise = right.value - left.value;
    table.set(
      [
        left.value,
        left.slope,
        left.bend / 2,
        10 * rise - 6 * left.slope - 4 * right.slope - 1.5 * left.bend + 0.5 * right.bend,
        -15 * rise + 8 * left.slope + 7 * right.slope + 1.5 * left.bend - right.bend,
        6 * rise - 3 * (left.slope + right.slope) - 0.5 * (left.bend - right.bend),
      ],
      DEGREES * i,
    );
    left = right;
  }
  return table;
}

function weibullShape(cv: number): number {
  positive(cv, 'cv');
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

function positive(value: number, what: string): void {
  if (!(value > 0 && value < Infinity))
    throw new RangeError(`${what} must be a finite number above 0: ${value}`);
}
