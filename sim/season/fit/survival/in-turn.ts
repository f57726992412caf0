/**
 * The plants of a group one by one, taken to leave in the order of their coming: first in, first out.
 *
 * For a group that came in on one date this is what happened. For one that came in on several it is a guess
 * which makes spreads too small (tested); it serves where a guess will do: for the days that plants stood in
 * a stage, and as a start.
 */

import type { Group, StageRecord } from './record.js';

/** Plants that came in on one day and met the same end. */
export interface Stay {
  /** When they came in [d] */
  readonly day: number;
  readonly count: number;
  /** What became of them, and at which visit; the last one for those that still stand. */
  readonly end: 'ready' | 'dead' | 'standing';
  readonly visit: number;
}

export function staysInTurn({ entries, ready, dead, standing }: Group, record: StageRecord): Stay[] {
  const ends: Omit<Stay, 'day'>[] = [
    ...ready.map((seen) => ({ ...seen, end: 'ready' as const })),
    ...dead.map((seen) => ({ ...seen, end: 'dead' as const })),
  ].sort((a, b) => a.visit - b.visit);
  if (standing > 0) ends.push({ visit: record.visits.length - 1, count: standing, end: 'standing' });
  const stays: Stay[] = [];
  let e = 0;
  let used = 0;
  for (const { visit, count, end } of ends) {
    for (let left = count; left > 0; ) {
      const entry = entries[e]!;
      const taken = Math.min(left, entry.count - used);
      if (taken > 0) stays.push({ day: entry.day, count: taken, end, visit });
      left -= taken;
      used += taken;
      if (used === entry.count) {
        e++;
        used = 0;
      }
    }
  }
  return stays;
}
