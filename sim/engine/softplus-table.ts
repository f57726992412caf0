/**
 * The softplus function and its integral as one table, for whoever asks for both very often: an exponential and a logarithm cost ten
 * times as much.
 *
 * Between knots each is the polynomial of fifth degree with the right value, slope and bend at both ends (Hermite). Its error is
 * width^6/46080 of the sixth derivative, and derivatives of softplus are never far above softplus itself, so it is relative: below
 * 1.3e-12 (tested). Beyond the table softplus is x, or e^x, to the last digit.
 */

import { softplus, softplusIntegral } from './softplus.js';

/** The table goes from -SPAN to SPAN. */
export const SPAN = 40;
const PER_UNIT = 16;
/** Numbers of a cell: coefficients of softplus, then of its integral, from the constant one on. */
export const PER_CELL = 12;

const table = new Float64Array(2 * SPAN * PER_UNIT * PER_CELL);
let isWritten = false;

/** Write the table, which is done once. @returns it, for `softplusIn` and `integralIn` */
export function softplusTable(): Float64Array {
  if (!isWritten) {
    for (let cell = 0; cell < 2 * SPAN * PER_UNIT; cell++) writeCell(cell);
    isWritten = true;
  }
  return table;
}

/** How many cells lie before `x`: the whole ones, and where in its cell it is. @param x from -SPAN to below SPAN */
export function cellsBefore(x: number): number {
  return (x + SPAN) * PER_UNIT;
}

/** The polynomial whose coefficients begin at `at`, at `p`. */
export function polynomial(c: Float64Array, at: number, p: number): number {
  const pp = p * p;
  return c[at]! + p * c[at + 1]! + pp * (c[at + 2]! + p * c[at + 3]! + pp * (c[at + 4]! + p * c[at + 5]!));
}

/** From the coefficients of softplus to those of its integral. */
export const TO_INTEGRAL = 6;

function writeCell(cell: number): void {
  const width = 1 / PER_UNIT;
  const from = cell * width - SPAN;
  const to = from + width;
  const bend = (x: number): number => slopeAt(x) * slopeAt(-x);
  writePolynomial(
    cell * PER_CELL,
    [softplus(from), width * slopeAt(from), width * width * bend(from)],
    [softplus(to), width * slopeAt(to), width * width * bend(to)],
  );
  writePolynomial(
    cell * PER_CELL + TO_INTEGRAL,
    [softplusIntegral(from), width * softplus(from), width * width * slopeAt(from)],
    [softplusIntegral(to), width * softplus(to), width * width * slopeAt(to)],
  );
}

/** The slope of softplus, to the last digit of itself also far below 0, where it is next to nothing. */
function slopeAt(x: number): number {
  const grown = Math.exp(-Math.abs(x));
  return (x > 0 ? 1 : grown) / (1 + grown);
}

type End = readonly [value: number, slope: number, bend: number];

/** The polynomial over 0 to 1 with these values, slopes and bends (second derivatives) at its ends. */
function writePolynomial(at: number, [v, s, b]: End, [w, t, c]: End): void {
  // What is left for the higher terms to bring about at the far end.
  const value = w - v - s - b / 2;
  const slope = t - s - b;
  const bend = c - b;
  table[at] = v;
  table[at + 1] = s;
  table[at + 2] = b / 2;
  table[at + 3] = 10 * value - 4 * slope + bend / 2;
  table[at + 4] = -15 * value + 7 * slope - bend;
  table[at + 5] = 6 * value - 3 * slope + bend / 2;
}
