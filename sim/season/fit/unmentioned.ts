/**
 * Plants that should have left a stage long ago, and of which no row tells: most likely they failed or died, and nobody
 * wrote it down.
 */

import { chanceOfAtLeast } from '../../engine/binomial.js';
import type { FittedLaw } from '../../engine/laws.js';
import { HARDLY } from '../history/overdue.js';
import { type Group, type StageRecord, total } from './survival/record.js';

/** Plants of which no row tells, and the batches that they belong to. */
export interface Unmentioned {
  readonly count: number;
  readonly batches: readonly string[];
  /**
   * Of these, the batches that are short of far more plants than the losses of the others explain: their plants may have been
   * thrown away, or a row be missing.
   */
  readonly odd: readonly string[];
}

/** Losses that are reached less than once in so many batches are odd... */
const ONCE_IN = 1000;
/** ...if they are so many plants above what is to be expected. */
const FEWEST = 2;

/**
 * @param groups with the names of their batches
 * @param law of the growth time, as it was fitted
 * @param lost probability that a plant fails or dies here, likewise
 */
export function unmentioned(
  groups: readonly (readonly [Group, string])[],
  { visits }: StageRecord,
  law: FittedLaw,
  lost: number,
): Unmentioned {
  // What was ready at the last visit that left holes free had left by then.
  const seen = visits.findLast(({ short }) => !short)?.day ?? 0;
  const overdue = groups.filter(([{ entries, standing }]) => {
    const age = seen - entries.at(-1)!.day;
    return standing > 0 && age > 0 && law.beyond(age) < HARDLY;
  });
  const odd = overdue.filter(([{ entries, dead, standing }]) => {
    const [came, gone] = [total(entries), total(dead) + standing];
    return gone >= came * lost + FEWEST && chanceOfAtLeast(gone, came, lost) * ONCE_IN < 1;
  });
  return {
    count: overdue.reduce((sum, [{ standing }]) => sum + standing, 0),
    batches: overdue.map(([, batch]) => batch),
    odd: odd.map(([, batch]) => batch),
  };
}
