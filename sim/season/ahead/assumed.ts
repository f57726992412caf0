/** What a look at the coming season takes to be so, though no row of the log says it. */

import { isoOfDay } from '../../models/dates.js';
import type { InitialStates } from './initial-states.js';
import type { Today } from './today.js';

export interface Assumed {
  /** ISO date of the last visit that is over; null if there was none. */
  readonly last_visit: string | null;
  /** ISO dates of planned visits after it that cannot have been made: sowings were due, and none is in the log. */
  readonly missed: readonly string[];
  /**
   * Plants that stand for so long that by the scenario's times fewer than 1 in 100 such plants would still grow: they are taken
   * as failed, and cleared at the next visit.
   */
  readonly overdue: readonly { readonly batch: string; readonly stage: string; readonly plants: number }[];
}

/** @param openings of which at least one has been drawn */
export function assumedOf({ season, visits, missed }: Today, { overdue }: InitialStates): Assumed {
  const { plan, batches } = season;
  const iso = (day: number): string => isoOfDay(plan.start, day);
  const last = visits.at(-1);
  return {
    last_visit: last === undefined ? null : iso(last),
    missed: missed.map(iso),
    overdue: [...overdue].map(([key, plants]) => {
      const [batch, stage] = key.split(' ').map(Number) as [number, number];
      return { batch: batches[batch]!.name, stage: plan.stages[stage]!.name, plants };
    }),
  };
}
