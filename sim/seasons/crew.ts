/** Those who run the seasons of a workload: this thread alone, or several others (pool.ts). */

import type { Gathered } from './gathered.js';
import { Hand, type Step } from './hand.js';
import type { Piece, Workload } from './workload.js';

export interface Crew {
  /** How many pieces can be in work at the same time. */
  readonly hands: number;
  /**
   * Run and tally a piece.
   * @param step asked after each season where that is possible
   * @returns null if stopped before the piece was done
   */
  tally(piece: Piece, step?: Step): Promise<Gathered | null>;
  /**
   * Run seasons `first` to before `first + count` of a job.
   * @returns picks, week w of the i-th season at i x weeks + w; null if stopped
   */
  weeks(job: number, first: number, count: number, step?: Step): Promise<Float64Array | null>;
  /** Let go of the threads. What is still in work is dropped. */
  close(): Promise<void>;
}

/** Everything on this thread, piece after piece. */
export function alone(workload: Workload): Crew {
  const hand = new Hand(workload);
  return {
    hands: 1,
    tally: (piece, step) => hand.tally(piece, step),
    weeks: (job, first, count, step) => hand.weeks(job, first, count, step),
    close: async () => {},
  };
}
