/** What stands by a log, row by row, for tests. */

import type { LogRow } from '../../sim/season/log/rows.js';
import type { Standing } from '../../sim/season/log/standing.js';

/** Take the next row. @returns null if it can be true; else what is wrong with it, and nothing has changed */
export function taken(standing: Standing, next: LogRow): string | null {
  const slip = standing.nameSlips(next)[0] ?? standing.countSlip(next);
  if (slip === null) {
    standing.apply(next);
    return null;
  }
  return `${slip.column}: found ${slip.found}; expected ${slip.expected}. ${slip.advice}`;
}

/** Plants of a batch in a stage. */
export function at(standing: Standing, batch: string, stage: string): number {
  return standing.batch(batch)!.standing[standing.stages.indexOf(stage)]!;
}
