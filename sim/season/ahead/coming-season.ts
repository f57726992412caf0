/** The season that futures run: from today on, for as long as is looked at, taken up from what stands by the log. */

import { Columns } from '../../engine/columns.js';
import type { Plan } from '../../models/plan.js';
import { type Result, success } from '../../models/result.js';
import type { Threads } from '../../seasons/threads.js';
import type { PauseAfterRuns } from '../../seasons/worker-pool.js';
import { withDays } from '../history/plan-days.js';
import type { LogFault } from '../log/faults.js';
import type { LogRow } from '../log/rows.js';
import type { BatchesLook } from './batches.js';
import { type FuturesSetup, plantsAhead } from './futures.js';
import { InitialStates } from './initial-states.js';
import { type Today, todayOf } from './today.js';

/** What is asked of every look at the coming season. */
export interface LookOptions {
  /** Today, ISO 8601; if null, the date of the last row (of an empty log the start of the season). */
  readonly today: string | null;
  /** Futures to simulate, at least 1. */
  readonly futures: number;
  /** Seed of the random streams; the plan's own if left out. */
  readonly seed?: number;
  /** The same plan with all visits, at least as long; null or left out if nobody is ever away. */
  readonly attended?: Plan | null;
  /** Told of each future that was run, or of several at once; says to stop by a promise of false. */
  readonly pause?: PauseAfterRuns;
  /**
   * Asked once for threads to run futures on; null or left out: this thread. The result does not depend on it. Whoever gives
   * them lets go of them.
   * @param plants that all futures together bring about
   */
  readonly threads?: (plants: number) => Promise<Threads | null>;
}

export interface ComingSeason {
  readonly today: Today;
  /** The plan, cut to what is looked at. */
  readonly line: Plan;
  readonly batches: BatchesLook;
  readonly setup: FuturesSetup;
}

/** How far and how often is looked. */
interface Extent {
  /** Numbers by their names that must be whole and at least 1. */
  readonly counts: Readonly<Record<string, number>>;
  /** Weeks that the plan must have. @param from first day to come [d from the start] */
  readonly weeks: (from: number) => number;
  /** Futures that are run at most. */
  readonly runs: number;
}

/**
 * @returns faults if the log does not fit the plan
 * @throws RangeError if the plan's season is too short, or a number is out of range
 */
export async function comingSeason(
  plan: Plan,
  rows: readonly LogRow[],
  { today: date, seed = plan.seed, pause, threads }: LookOptions,
  { counts, weeks, runs }: Extent,
): Promise<Result<ComingSeason, LogFault>> {
  for (const [name, value] of Object.entries(counts)) {
    if (!(Number.isInteger(value) && value >= 1))
      throw new RangeError(`${name} must be at least 1: ${value}`);
  }
  const reading = todayOf(rows, plan, date);
  if (!reading.ok) return reading;
  const today = reading.value;
  const needed = weeks(today.from);
  if (plan.weeks < needed) throw new RangeError(`the plan must have ${needed} weeks: ${plan.weeks}`);
  const line = cutShort(today.season.plan, needed);
  const initialStates = new InitialStates(today, seed);
  const plants = runs * plantsAhead(line, initialStates);
  const setup = {
    openings: initialStates,
    seed,
    pause,
    threads: (await threads?.(plants)) ?? null,
    columns: new Columns(),
  };
  const batches = {
    logged: today.season.batches.length,
    standing: initialStates.stand?.plants.batch ?? new Int32Array(0),
  };
  return success({ today, line, batches, setup });
}

/** The same plan with a season that ends earlier. */
export function cutShort(plan: Plan, weeks: number): Plan {
  return { ...withDays(plan, (days) => days.filter((day) => day < 7 * weeks)), weeks };
}
