/** The gamma law of times. */

import { gammaQuantile, HALF_LN_2PI, lnGamma, regularisedGamma } from './gamma.js';
import { type FittedLaw, positive, shareOfAny } from './laws.js';
import { normalBelow, normalBeyond, normalQuantile, normalQuantiles } from './normal.js';
import { upperGamma } from './upper-gamma.js';

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
export function gammaLaw(mean: number, cv: number): FittedLaw {
  positive(mean, 'mean');
  positive(cv, 'cv');
  if (cv < NARROW) return narrowGammaLaw(mean, cv);
  const shape = 1 / (cv * cv);
  const scale = mean / shape;
  const lnFront = lnGamma(shape);
  // Made at the first draw: it takes a millisecond, and who only asks for shares draws nothing.
  let table: Float64Array | null = null;
  return {
    quantile: (u) => scale * gammaQuantile(u, shape),
    fill: (values, n) => {
      table ??= gammaTable(shape, scale);
      interpolate(table, values, n);
    },
    share: shareOfAny((t) => regularisedGamma(shape, t / scale)),
    beyond: (t) => regularisedGamma(shape, t / scale, true),
    logDensity: (t) => (shape - 1) * Math.log(t / scale) - t / scale - lnFront - Math.log(scale),
    endedBy: (t) => {
      const x = t / scale;
      // Gamma(shape - 1, x) / Gamma(shape); for narrow laws both overflow, their quotient does not.
      const inverse =
        shape > 1.5
          ? regularisedGamma(shape - 1, x, true) / (shape - 1)
          : upperGamma(shape - 1, x) / Math.exp(lnFront);
      return regularisedGamma(shape, x) + x * inverse;
    },
  };
}

/** Replace the uniform numbers in `values[0 .. n-1]` by their quantiles. */
function interpolate(table: Float64Array, values: Float64Array, n: number): void {
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
}

/** Below this CV (shapes above 100 000) the incomplete gamma function takes long, and another form is as good. */
const NARROW = 1 / Math.sqrt(1e5);

/**
 * The gamma law by the transformation of Wilson & Hilferty: the cube root of T is normal, to better than 1e-7 in the far tails
 * too. It has no number in it that grows beyond bounds as the CV falls, and becomes a fixed time.
 */
function narrowGammaLaw(mean: number, cv: number): FittedLaw {
  const middle = 1 - (cv * cv) / 9;
  const deviation = cv / 3;
  const time = (z: number): number => {
    const root = middle + deviation * z;
    return mean * root * root * root;
  };
  const z = (t: number): number => (Math.cbrt(t / mean) - middle) / deviation;
  return {
    quantile: (u) => time(normalQuantile(u)),
    fill: (values, n) => {
      normalQuantiles(values, n);
      for (let i = 0; i < n; i++) values[i] = time(values[i]!);
    },
    share: shareOfAny((t) => normalBelow(z(t))),
    beyond: (t) => normalBeyond(z(t)),
    // dz/dt = cbrt(t / mean) / (3 t deviation)
    logDensity: (t) => Math.log(Math.cbrt(t / mean) / (t * cv)) - 0.5 * z(t) * z(t) - HALF_LN_2PI,
    // E[1/T; T > t]: weighted by 1/T it is a gamma law again, of shape 1/CV^2 - 1 and the same scale.
    endedBy: (t) => {
      const inverse = 1 / (mean * (1 - cv * cv));
      const narrower = cv / Math.sqrt(1 - cv * cv);
      const beyond = normalBeyond(
        (Math.cbrt(t * inverse) - (1 - (narrower * narrower) / 9)) / (narrower / 3),
      );
      return normalBelow(z(t)) + t * inverse * beyond;
    },
  };
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
    const slope = Math.exp(-0.5 * z * z - HALF_LN_2PI - (shape * Math.log(x) - x - lnFront));
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
