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

/** The address of a stream within a season: see `streamKey`. */
export type StreamKey = string;

/**
 * A short key for a stream's name. Seeding costs time for every character, and names are long.
 *
 * Two hashes of 32 bits in the manner of FNV-1a, with different starts and factors: of a thousand names, two share a key with a chance below 1e-13.
 * @param name what the draws are for, such as ['butterhead', 'nursery', 'time']
 */
export function streamKey(name: readonly string[]): StreamKey {
  // JSON keeps the parts apart whatever characters are in them.
  const text = JSON.stringify(name);
  let a = 0x811c9dc5;
  let b = 0x9e3779b9;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    a = Math.imul(a ^ code, 0x01000193);
    b = Math.imul(b ^ code, 0x5bd1e995);
  }
  return (a >>> 0).toString(36) + (b >>> 0).toString(36).padStart(7, '0');
}

/**
 * The generator of one stream.
 * @param seed the scenario's seed, 0 or more
 * @param season number of the season, 0 or more
 * @param name what the draws are for
 * @returns numbers k/2^32, k = 0 .. 2^32 - 1; add half a cell (see `fillUniform`) before taking a quantile
 */
export function stream(seed: number, season: number, name: readonly string[]): Uniform {
  return streamAt(seed, season, streamKey(name));
}

/** As `stream`, for whoever keeps the key of the name. */
export function streamAt(seed: number, season: number, key: StreamKey): Uniform {
  return alea(addressOf(seed, season, key));
}

function addressOf(seed: number, season: number, key: StreamKey): string {
  return `${seed} ${season} ${key}`;
}

/** Fill `out[0 .. n-1]` with uniform numbers strictly between 0 and 1. */
export function fillUniform(source: Uniform, out: Float64Array, n: number): void {
  for (let i = 0; i < n; i++) out[i] = source() + HALF_CELL;
}

/** A stream, one by one as `fillUniform` has them: never 0, never 1. */
export function openStream(seed: number, season: number, name: readonly string[]): Uniform {
  const source = stream(seed, season, name);
  const one = new Float64Array(1);
  return () => {
    fillUniform(source, one, 1);
    return one[0]!;
  };
}

/**
 * The same numbers as `fillUniform(streamAt(...))`, many at a time.
 *
 * seedrandom seeds the generator and hands out its state; the loop then takes the generator's step itself, because a
 * call for each number leaves a number object behind, and a season must allocate nothing.
 */
export class BlockStream {
  #s0 = 0;
  #s1 = 0;
  #s2 = 0;
  #carry = 0;

  /** Begin the stream at this address. */
  start(seed: number, season: number, key: StreamKey): void {
    const state = alea(addressOf(seed, season, key), { state: true }).state();
    this.#s0 = state.s0;
    this.#s1 = state.s1;
    this.#s2 = state.s2;
    this.#carry = state.c;
  }

  /** Fill `out[0 .. n-1]` with the next uniform numbers, strictly between 0 and 1. */
  fill(out: Float64Array, n: number): void {
    let s0 = this.#s0;
    let s1 = this.#s1;
    let s2 = this.#s2;
    let carry = this.#carry;
    for (let i = 0; i < n; i++) {
      const t = 2091639 * s0 + carry * 2 ** -32;
      s0 = s1;
      s1 = s2;
      carry = t | 0;
      s2 = t - carry;
      out[i] = s2 + HALF_CELL;
    }
    this.#s0 = s0;
    this.#s1 = s1;
    this.#s2 = s2;
    this.#carry = carry;
  }
}
