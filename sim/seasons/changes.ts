/** Small changes to a plan that are tried to find what holds the line back. */

import { BLOCKED, type Season, STATE_COUNT, UNSOWN } from '../models/ledger.js';
import { type CropPlan, type Plan, seasonDays } from '../models/plan.js';
import * as route from '../models/route.js';

export type Change =
  | { readonly kind: 'channel'; readonly stage: string; readonly holes: number }
  | { readonly kind: 'seeds'; readonly percent: number }
  | { readonly kind: 'visits' };

/** More seeds at each sowing, in the trial of more seeds [%]. */
const MORE_SEEDS_PERCENT = 10;

/** What can be tried: one more channel in each stage; more seeds; a visit every day. */
export function changesOf(plan: Plan): Change[] {
  const changes: Change[] = plan.stages.map((stage) => ({
    kind: 'channel',
    stage: stage.name,
    holes: stage.holesPerChannel,
  }));
  if (plan.crops.some((crop) => crop.sowing.kind === 'due')) {
    changes.push({ kind: 'seeds', percent: MORE_SEEDS_PERCENT });
  }
  if (plan.visits.kind === 'days' && plan.visits.days.length < seasonDays(plan))
    changes.push({ kind: 'visits' });
  return changes;
}

/** The plan with the change made. */
export function applied(plan: Plan, change: Change): Plan {
  switch (change.kind) {
    case 'channel':
      return {
        ...plan,
        stages: plan.stages.map((stage) =>
          stage.name === change.stage ? { ...stage, channels: stage.channels + 1 } : stage,
        ),
      };
    case 'seeds':
      return { ...plan, crops: plan.crops.map((crop) => withMoreSeeds(crop, change.percent)) };
    case 'visits':
      return {
        ...plan,
        visits: { kind: 'days', days: Array.from({ length: seasonDays(plan) }, (_, day) => day) },
      };
  }
}

function withMoreSeeds(crop: CropPlan, percent: number): CropPlan {
  if (crop.sowing.kind !== 'due') return crop;
  return { ...crop, sowing: { ...crop.sowing, seeds: Math.ceil(crop.sowing.seeds * (1 + percent / 100)) } };
}

/**
 * true if the change cannot have mattered in a season of the plan as it is: the season need not be run again.
 *
 * A channel more takes nobody in if nobody was ever refused: then no plant was blocked in the stage before (at the first
 * stage: no seed left unsown). Where a crop is refilled the rule itself looks at the holes, and where a plant that keeps for
 * no time is thrown away at the instant at which it is refused it was never blocked: then nothing can be said.
 */
export function cannotMatter(change: Change, plan: Plan, season: Season): boolean {
  if (change.kind !== 'channel') return false;
  const atOnce = plan.visits.kind === 'always';
  if (
    plan.crops.some(
      ({ sowing, stages }) => sowing.kind === 'refill' || (atOnce && stages.some(({ keeps }) => keeps === 0)),
    )
  )
    return false;
  const s = plan.stages.findIndex((stage) => stage.name === change.stage);
  if (s === route.first(plan)) return season.counts[UNSOWN] === 0;
  return season.ledger[route.before(plan, s) * STATE_COUNT + BLOCKED] === 0;
}
