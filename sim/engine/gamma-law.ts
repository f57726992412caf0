/** The gamma law of times. */

import { gammaQuantile, HALF_LN_2PI, lnGamma, regularisedGamma } from './gamma.js';
import { type FittedLaw, positive, shareOfAny } from './laws.js';
import { normalBelow, normalBeyond, normalQuantiles } from './normal.js';
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
    share: shareOfAny((t) => gammaShare(t / scale, shape, false)),
    beyond: (t) => gammaShare(t / scale, shape, true),
    logDensity: (t) => (shape - 1) * Math.log(t / scale) - t / scale - lnFront - Math.log(scale),
    endedBy: (t) => {
      const x = t / scale;
      // Gamma(shape - 1, x) / Gamma(shape); for narrow laws both overflow, their quotient does not.
      const inverse =
        shape > 1.5
          ? regularisedGamma(shape - 1, x, true) / (shape - 1)
          : upperGamma(shape - 1, x) / Math.exp(lnFront);
      return gammaShare(x, shape, false) + x * inverse;
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

/** Above this shape (spread below 0.0032) the incomplete gamma function takes long, and another form is as good. */
const NEARLY_NORMAL = 1e5;

/**
 * Share of a gamma law of scale 1 up to x, or with `upper` beyond it; for very large shapes by Wilson & Hilferty, as in the
 * quantile.
 */
function gammaShare(x: number, shape: number, upper: boolean): number {
  if (shape <= NEARLY_NORMAL) return regularisedGamma(shape, x, upper);
  const z = 3 * Math.sqrt(shape) * (Math.cbrt(x / shape) - 1 + 1 / (9 * shape));
  return upper ? normalBeyond(z) : normalBelow(z);
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
