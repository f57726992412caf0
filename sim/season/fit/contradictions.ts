/** What cannot be: a fit that its own log speaks against, whatever the intervals say. Nothing of it is good. */

import { fifoStays } from './survival/fifo-stays.js';
import type { Median } from './survival/kaplan-meier.js';
import { type FittedShape, fittedLaw } from './survival/laws.js';
import { type Group, type StageRecord, total } from './survival/record.js';

/**
 * `grown_exceeds_stood`: half of the plants were away before half of them can have been ready. `overdue`: more plants stand
 * longer than those that left ever did than have left. `refused`: the log does not fit the scenario.
 */
export type Contradiction = 'grown_exceeds_stood' | 'overdue' | 'refused';

/** Of those that left, so many stood less long than a plant that is overdue. */
const MOST_STAYS = 0.99;

/** What is told of a stage. */
interface Told {
  readonly days: { readonly value: number } | null;
  readonly spread: { readonly value: number } | null;
  readonly shape: FittedShape;
  readonly stay: Median | null;
  readonly ready: number;
}

/** @param groups of the plants that were fitted */
export function contradictionsOf(fit: Told, groups: readonly Group[], record: StageRecord): Contradiction[] {
  const { days, spread, shape, stay, ready } = fit;
  if (days === null || spread === null) return [];
  const grown = fittedLaw(shape, days.value, spread.value).quantile(0.5);
  // What half stood is known to within its interval, whose ends are visits.
  const exceeds = stay?.high != null && grown > stay.high;
  return [
    ...(exceeds ? ['grown_exceeds_stood' as const] : []),
    ...(overdue(groups, record) > ready ? ['overdue' as const] : []),
  ];
}

/** Plants that have stood longer than nearly all that left. */
function overdue(groups: readonly Group[], record: StageRecord): number {
  const stays = groups.flatMap((group) => fifoStays(group, record));
  const days = (of: (typeof stays)[number]): number => record.visits[of.visit]!.day - of.day;
  const left = stays.filter(({ end }) => end === 'ready').sort((a, b) => days(a) - days(b));
  let before = MOST_STAYS * total(left);
  const usual = left.find(({ count }) => {
    before -= count;
    return before <= 0;
  });
  if (usual === undefined) return 0;
  return total(stays.filter((stay) => stay.end === 'standing' && days(stay) > days(usual)));
}
