/**
 * What was meant to be sown at each visit, so far as log and plan tell.
 *
 * Where all was sown that the plan had due by a visit, or less because there were no free cells, the plan was meant: with other
 * visits, or more room, it would have been sown as it fell due. Else what was sown was meant.
 */

import type { Sowing } from '../../models/plan.js';
import type { LoggedSeason } from '../history/logged-season.js';

/** Seeds on a day [d from the start]. */
export interface Seeds {
  readonly day: number;
  readonly seeds: number;
}

/** What a visit sowed of one crop. */
export interface SowingVisit {
  readonly day: number;
  /** Day of the visit before; -1 if there was none. */
  readonly since: number;
  readonly sown: number;
  /** What the plan had due since then. Empty if the crop has no such plan. */
  readonly due: readonly Seeds[];
  /** Whether all of it was sown for which there were cells. */
  readonly asPlanned: boolean;
}

/**
 * Of each crop what each visit sowed; behind them, on the day after the last, what was due and met no visit.
 * @param visits ascending [d] @param empty free cells of the first stage after each day
 */
export function sowingVisits(
  { plan, planned, days, batches }: LoggedSeason,
  visits: readonly number[],
  empty: Int32Array,
): SowingVisit[][] {
  return plan.crops.map(({ sowing }, c) => {
    const sown = new Float64Array(days + 1);
    for (const batch of batches) if (batch.crop === c) sown[batch.sown]! += batch.seeds;
    const all = planned && sowing.kind === 'due' ? sowing : { days: [], seeds: 0 };
    return [...visits, days].map((day, i): SowingVisit => {
      const since = visits[i - 1] ?? -1;
      const due = all.days
        .filter((on) => on > since && on <= day && on < days)
        .map((on) => ({ day: on, seeds: all.seeds }));
      const wanted = seedsIn(due);
      const asPlanned =
        due.length > 0 && (sown[day] === wanted || day === days || (sown[day]! < wanted && empty[day] === 0));
      return { day, since, sown: sown[day]!, due, asPlanned };
    });
  });
}

export function seedsIn(sowings: readonly Pick<Seeds, 'seeds'>[]): number {
  return sowings.reduce((sum, { seeds }) => sum + seeds, 0);
}

/** Sowings as a plan has them, however many seeds each of them is of. */
export function sowingOf(sowings: readonly Seeds[]): Extract<Sowing, { kind: 'due' }> {
  const inOrder = [...sowings].sort((a, b) => a.day - b.day);
  return {
    kind: 'due',
    days: inOrder.map(({ day }) => day),
    seeds: 0,
    more: inOrder.map(({ seeds }) => seeds),
  };
}
