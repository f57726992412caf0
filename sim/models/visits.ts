/** When somebody tends the line, and how long a ready plant waits for that. */

import { type Plan, seasonDays } from './plan.js';

/**
 * Mean wait from a random moment of the season for the next of some days [d].
 *
 * sum(gap^2) / (2 sum(gap)) over the gaps between the days: long gaps catch more plants. (Mean residual life of a renewal
 * process, from memory.) Half the season if there are no such days.
 * @param days ascending [d]
 * @param end of the season [d]
 * @param open how long each of the days stays open [d]: whoever comes meanwhile waits no more
 */
function meanWait(days: readonly number[], end: number, open = 0): number {
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < days.length; i++) {
    const gap = (i + 1 < days.length ? days[i + 1]! : end) - days[i]!;
    sum += gap;
    squares += (gap - open) ** 2;
  }
  return sum > 0 ? squares / (2 * sum) : end / 2;
}

/** Mean wait of a ready plant for the next visit [d]; 0 with `visits: always`. */
export function meanWaitForVisit(plan: Plan): number {
  return plan.visits.kind === 'always' ? 0 : meanWait(plan.visits.days, seasonDays(plan));
}

/** Mean wait of a ready head for the next day on which it may be picked [d]. */
export function meanWaitForPick(plan: Plan): number {
  if (plan.want === null) return meanWaitForVisit(plan);
  // With `always` heads are picked all through a wanted day, else at the visit at its beginning.
  return plan.visits.kind === 'always'
    ? meanWait(plan.want.days, seasonDays(plan), 1)
    : Math.max(meanWaitForVisit(plan), meanWait(plan.want.days, seasonDays(plan)));
}

/**
 * Longest wait of a ready head for the next day on which it is wanted [d]: the longest gap between two such days, and at
 * least the mean wait for a visit.
 */
export function longestWaitForPick(plan: Plan): number {
  if (plan.want === null) return meanWaitForVisit(plan);
  const { days } = plan.want;
  const open = plan.visits.kind === 'always' ? 1 : 0;
  let longest = 0;
  for (let i = 1; i < days.length; i++) longest = Math.max(longest, days[i]! - days[i - 1]! - open);
  return Math.max(longest, meanWaitForVisit(plan));
}
