/** A logged season simulated with its own luck. */

import { SOWN } from '../../models/ledger.js';
import { Line } from '../../models/line/line.js';
import type { Plan, Sowing } from '../../models/plan.js';
import type { LoggedSeason } from '../history/logged-season.js';
import { planOfFollowed } from './followed.js';
import type { SeasonDraws } from './season-draws.js';

/** The plan of a season with the visits and sowings that it had, or might have had. @param sowings of each crop */
export function planOf({ plan }: LoggedSeason, visits: readonly number[], sowings: readonly Sowing[]): Plan {
  return {
    ...plan,
    // There are no visits behind the end of what the log tells, so nothing is picked or sown there.
    visits: { kind: 'days', days: visits },
    crops: plan.crops.map((crop, c) => ({ ...crop, sowing: sowings[c]! })),
  };
}

/**
 * @param draws of the plants that are followed @param each for how many plants each of them stands
 * @param completion what was not seen is drawn from the streams of this number
 */
export function simulated(
  plan: Plan,
  draws: SeasonDraws,
  each: number,
  completion = 0,
): { weekPicks: readonly number[]; sown: number; resampled: number } {
  const { weekPicks, counts } = new Line(planOfFollowed(plan, each), draws).run(plan.seed, completion);
  return {
    weekPicks: Array.from(weekPicks, (heads) => heads * each),
    sown: counts[SOWN]! * each,
    resampled: draws.beyond(),
  };
}

/** Share of the heads that may be in another week for the season to be the same. */
export const FAITHFUL = 0.05;

/** Heads that a season gives in another week than it did, or not at all. @param was heads of each week as they were */
export function departure(was: readonly number[], picks: readonly number[]): number {
  return was.reduce((sum, heads, week) => sum + Math.abs(heads - (picks[week] ?? 0)), 0);
}

export function headsIn(picks: readonly number[]): number {
  return picks.reduce((sum, heads) => sum + heads, 0);
}
