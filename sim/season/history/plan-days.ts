/** The days of a plan as a log has them: somebody who comes at every change comes every day. */

import { type Plan, seasonDays } from '../../models/plan.js';

/** The visits of a plan [d from the start]. */
export function dailyVisits(plan: Plan): readonly number[] {
  if (plan.visits.kind === 'days') return plan.visits.days;
  return Array.from({ length: seasonDays(plan) }, (_, day) => day);
}

/** The plan with other days: of its visits, its sowings and its wants. @param change the days of each */
export function withDays(plan: Plan, change: (days: readonly number[]) => readonly number[]): Plan {
  return {
    ...plan,
    visits: { kind: 'days', days: change(dailyVisits(plan)) },
    crops: plan.crops.map((crop) =>
      crop.sowing.kind === 'refill'
        ? crop
        : { ...crop, sowing: { ...crop.sowing, days: change(crop.sowing.days) } },
    ),
    want: plan.want && { ...plan.want, days: change(plan.want.days) },
  };
}
