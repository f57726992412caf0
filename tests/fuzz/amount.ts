/**
 * How many cases a property gets, and with which luck: counted, so that what comes of it is the same on every machine.
 *
 * FUZZ_TIMES=1000 gives a thousand times as many as are named in the tests, FUZZ_SEED=2 others. The ordinary suite has half of them.
 */

const TIMES = Number(process.env['FUZZ_TIMES'] ?? 0.5);
const SEED = Number(process.env['FUZZ_SEED'] ?? 1);

/** Whether as many cases are asked for as are named in the tests, or more: then there is time for large ones too. */
export const IS_LARGE = TIMES >= 1;

/** @param usual cases if nothing else is said */
export function amount(usual: number): { readonly numRuns: number; readonly seed: number } {
  return { numRuns: Math.max(1, Math.round(usual * TIMES)), seed: SEED };
}
