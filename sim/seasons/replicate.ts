/** Many seasons of one plan. */

import type { Season } from '../models/ledger.js';
import { Line } from '../models/line/line.js';
import type { Plan } from '../models/plan.js';
import { Tallies } from './tallies.js';
import { plantsOf } from './workload.js';

/** The most seasons that a study takes. */
export const MOST_SEASONS = 1_000_000;

export interface ReplicateOptions {
  /** How many seasons, 1 to MOST_SEASONS. */
  readonly seasons: number;
  /** Seed of the random streams; the plan's own if left out. */
  readonly seed?: number;
  /** Sees each season, in order, before it is overwritten by the next. */
  readonly watch?: (season: Season) => void;
  /**
   * Asked after each season. null: go on at once. A promise: wait for it (so that the caller's event loop gets its
   * turn), and stop early if it gives false.
   */
  readonly pause?: (done: number) => Promise<boolean> | null;
}

/**
 * Run seasons 0, 1, 2, ... of a plan and tally them.
 * @returns fewer seasons than asked for only if `pause` said to stop
 * @throws RangeError if `seasons` is out of range
 */
export async function replicate(plan: Plan, options: ReplicateOptions): Promise<Tallies> {
  const { seasons, seed = plan.seed, watch, pause } = options;
  if (!(Number.isInteger(seasons) && seasons >= 1 && seasons <= MOST_SEASONS)) {
    throw new RangeError(`seasons must be a whole number from 1 to ${MOST_SEASONS}: ${seasons}`);
  }
  const line = new Line(plan);
  const tallies = new Tallies(plan);
  for (let season = 0; season < seasons; season++) {
    const result = line.run(seed, season);
    tallies.add(result);
    watch?.(result);
    const waiting = pause?.(season + 1) ?? null;
    if (waiting !== null && !(await waiting)) break;
  }
  return tallies;
}

/** Plants that the default number of seasons may take together, about half a minute of one core. */
const DEFAULT_PLANTS = 3e7;

/** Seasons to run when nobody says how many: 200; fewer, but at least 20, of a very large line. */
export function defaultSeasons(plan: Plan): number {
  return Math.max(20, Math.min(200, Math.floor(DEFAULT_PLANTS / Math.max(1, plantsOf(plan)))));
}
