/**
 * The plants of a group one by one, taken to leave in the order of their coming: first in, first out.
 *
 * For a group that came in on one date this is what happened. For one that came in on several it is a guess
 * which makes spreads too small (tested); it serves where a guess will do: for the days that plants stood in
 * a stage, and as a start.
 */

import { inTurn } from '../../history/in-turn.js';
import type { Group, StageRecord } from './record.js';

/** Plants that came in on one day and met the same end. */
export interface FifoStay {
  /** When they came in [d] */
  readonly day: number;
  readonly count: number;
  /** What became of them, and at which visit; the last one for those that still stand. */
  readonly end: 'ready' | 'dead' | 'standing';
  readonly visit: number;
}

export function fifoStays({ entries, ready, dead, standing }: Group, record: StageRecord): FifoStay[] {
  const ends: Omit<FifoStay, 'day'>[] = [
    ...ready.map((seen) => ({ ...seen, end: 'ready' as const })),
    ...dead.map((seen) => ({ ...seen, end: 'dead' as const })),
  ].sort((a, b) => a.visit - b.visit);
  if (standing > 0) ends.push({ visit: record.visits.length - 1, count: standing, end: 'standing' });
  const stays: FifoStay[] = [];
  inTurn(entries, ends, ({ day }, { visit, end }, count) => {
    stays.push({ day, count, end, visit });
  });
  return stays;
}
