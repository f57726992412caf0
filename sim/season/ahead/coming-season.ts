/** The season that futures run: from today on, for as long as is looked at, taken up from what stands by the log. */

import type { Plan } from '../../models/plan.js';
import type { LogFault } from '../log/faults.js';
import type { LogRow } from '../log/rows.js';
import { Batches } from './batches.js';
import { cutShort } from './futures.js';
import { Openings } from './openings.js';
import { type Today, todayOf } from './today.js';

export interface ComingSeason {
  readonly today: Today;
  /** The plan, cut to what is looked at. */
  readonly line: Plan;
  readonly openings: Openings;
  readonly batches: Batches;
}

/** What a look at the coming season asks for. */
export interface Look {
  /** ISO date; as in `todayOf`. */
  readonly today: string | null;
  readonly seed: number;
  /** Numbers by their names that must be whole and at least 1. */
  readonly counts: Readonly<Record<string, number>>;
  /** Weeks that the plan must have. @param from first day to come [d from the start] */
  readonly weeks: (from: number) => number;
}

/**
 * @returns faults if the log does not fit the plan
 * @throws RangeError if the plan's season is too short, or a count is out of range
 */
export function comingSeason(
  plan: Plan,
  rows: readonly LogRow[],
  { today: date, seed, counts, weeks }: Look,
):
  | { readonly ok: true; readonly coming: ComingSeason }
  | { readonly ok: false; readonly faults: readonly LogFault[] } {
  for (const [name, value] of Object.entries(counts)) {
    if (!(Number.isInteger(value) && value >= 1))
      throw new RangeError(`${name} must be at least 1: ${value}`);
  }
  const reading = todayOf(rows, plan, date);
  if (!reading.ok) return reading;
  const { today } = reading;
  const needed = weeks(today.from);
  if (plan.weeks < needed) throw new RangeError(`the plan must have ${needed} weeks: ${plan.weeks}`);
  const openings = new Openings(today, seed);
  const batches = new Batches(today.season.batches, openings);
  return { ok: true, coming: { today, line: cutShort(today.season.plan, needed), openings, batches } };
}
