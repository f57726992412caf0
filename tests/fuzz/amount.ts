/**
 * How many cases a property gets, and with which luck: counted, so that what comes of it is the same on every machine.
 *
 * FUZZ_TIMES=1000 gives a thousand times as many as the ordinary suite, FUZZ_SEED=2 others.
 */

const TIMES = Number(process.env['FUZZ_TIMES'] ?? 1);
const SEED = Number(process.env['FUZZ_SEED'] ?? 1);

/** @param usual cases in the ordinary suite */
export function amount(usual: number): { readonly numRuns: number; readonly seed: number } {
  return { numRuns: Math.max(1, Math.round(usual * TIMES)), seed: SEED };
}
