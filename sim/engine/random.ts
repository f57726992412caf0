/**
 * Named, independent streams of uniform random numbers for one season.
 *
 * A stream is addressed by its name: (seed, season, name parts). What other streams draw, in which order, or whether
 * they exist at all, changes nothing in it. Source of randomness: the Alea generator of seedrandom (32 bits a draw).
 */

// The single generator is imported instead of the whole package: it is all that is used, and start-up is felt.
import alea from 'seedrandom/lib/alea.js';

/** Centre of the first of 2^32 cells: a draw of exactly 0 would have no quantile. */
const HALF_CELL = 2 ** -33;

/** A source of uniform numbers, each above 0 and below 1. */
export type Uniform = () => number;

/**
 * The generator of one stream.
 * @param seed the scenario's seed, 0 or more
 * @param season number of the season, 0 or more
 * @param name what the draws are for, such as ['butterhead', 'nursery', 'time']
 * @returns numbers k/2^32, k = 0 .. 2^32 - 1; add half a cell (see `fillUniform`) before taking a quantile
 */
export function stream(seed: number, season: number, name: readonly string[]): Uniform {
  // JSON keeps the parts apart whatever characters are in them.
  return alea(JSON.stringify([seed, season, ...name]));
}

/** Fill `out[0 .. n-1]` with uniform numbers strictly between 0 and 1. */
export function fillUniform(source: Uniform, out: Float64Array, n: number): void {
  for (let i = 0; i < n; i++) out[i] = source() + HALF_CELL;
}
