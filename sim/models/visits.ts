/** When somebody tends the line, and how long a ready plant waits for that. */

import type { Plan } from './plan.js';

/**
 * Mean wait of a plant that becomes ready at a random moment for the next visit [d].
 *
 * sum(gap^2) / (2 sum(gap)) over the gaps between visits: long gaps catch more plants. (Mean residual life of a
 * renewal process; e.g. Takacs 1962, from memory.) 0 with `visits: always`; half the season if nobody ever comes.
 */
export function meanWaitForVisit(plan: Plan): number {
  if (plan.visits.kind === 'always') return 0;
  const days = plan.visits.days;
  const end = plan.weeks * 7;
  let sum = 0;
  let squares = 0;
  for (let i = 0; i < days.length; i++) {
    const gap = (i + 1 < days.length ? days[i + 1]! : end) - days[i]!;
    sum += gap;
    squares += gap * gap;
  }
  return sum > 0 ? squares / (2 * sum) : end / 2;
}
