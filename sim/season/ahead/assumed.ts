/** What a look at the coming season takes to be so, though no row of the log says it. */

import { groupedBy, sumOf } from '../../engine/lists.js';
import { isoOfDay } from '../../models/dates.js';
import type { InitialStates } from './initial-states.js';
import type { Today } from './today.js';

export interface Assumed {
  /** ISO date of the last visit that is over; null if there was none. */
  readonly last_visit: string | null;
  /** ISO dates of planned visits after it that cannot have been made: sowings were due, and none is in the log. */
  readonly missed: readonly string[];
  /**
   * Plants that stand by the log for so long that by the scenario's times fewer than 1 in 100 such plants would still grow: they
   * are taken as failed.
   */
  readonly overdue: readonly OverduePlants[];
}

/** Overdue plants of a batch. */
export interface OverduePlants {
  readonly batch: string;
  readonly stage: string;
  readonly plants: number;
  /**
   * Of these, plants that are taken as gone by now, as the stage has no hole for all that stands there by the log; the others are
   * taken as standing dead, and cleared at the next visit.
   */
  readonly gone: number;
}

/** @param openings of which at least one has been drawn */
export function assumedOf({ season, unseen, visits, missed }: Today, { overdue }: InitialStates): Assumed {
  const { plan, batches } = season;
  const iso = (day: number): string => isoOfDay(plan.start, day);
  const last = visits.at(-1);
  const lost = [
    ...unseen.map(({ batch, stage, count }) => ({ batch, stage, plants: count, gone: count })),
    ...overdue.map((one) => ({ ...one, gone: 0 })),
  ];
  return {
    last_visit: last === undefined ? null : iso(last),
    missed: missed.map(iso),
    overdue: [...groupedBy(lost, ({ batch, stage }) => `${batch} ${stage}`).values()].map((group) => ({
      batch: batches[group[0].batch]!.name,
      stage: plan.stages[group[0].stage]!.name,
      plants: sumOf(group.map(({ plants }) => plants)),
      gone: sumOf(group.map(({ gone }) => gone)),
    })),
  };
}
