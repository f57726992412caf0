/** A logged season simulated with its own luck. */

import { SOWN } from '../../models/ledger.js';
import { Line } from '../../models/line/line.js';
import type { Plan, Sowing } from '../../models/plan.js';
import type { LoggedSeason } from '../history/logged-season.js';
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

/** @param completion what was not seen is drawn from the streams of this number */
export function simulated(
  plan: Plan,
  draws: SeasonDraws,
  completion = 0,
): { weekPicks: readonly number[]; sown: number; resampled: number } {
  const { weekPicks, counts } = new Line(plan, draws).run(plan.seed, completion);
  return { weekPicks: [...weekPicks], sown: counts[SOWN]!, resampled: draws.beyond() };
}

export function headsIn(picks: readonly number[]): number {
  return picks.reduce((sum, heads) => sum + heads, 0);
}
