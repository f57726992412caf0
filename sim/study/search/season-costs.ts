/**
 * What a plan takes in a season, as far as a search is asked to spend least of it: known of every candidate before any season is run. And
 * what a head of the plans that were found truly costs.
 */

import { lucklessSeason } from '../../models/luckless.js';
import { lineMatter } from '../../models/physical/line-matter.js';
import { type Plan, seasonDays } from '../../models/plan.js';
import { lampsKwh, sumIfAll } from '../../models/taken-amounts.js';
import { gather, type Pause } from '../../seasons/gather.js';
import type { Estimate } from '../../seasons/sections.js';
import { Tallies } from '../../seasons/tallies.js';
import { sectionsFor } from '../../seasons/workload.js';
import { figureOf } from '../figures/estimates.js';
import { FIGURES } from '../figures/figures.js';
import { samplesOf } from '../figures/samples.js';
import { type SeasonCosts, seasonCosts } from '../money.js';

/** What the lamps draw in a season [kWh]; null where it is not told of every stage. */
export function seasonKwh(plan: Plan): number | null {
  const matter = lineMatter(plan);
  if (matter === null) return null;
  return sumIfAll(plan.stages.map((_, s) => lampsKwh(plan, matter, s, seasonDays(plan))));
}

/** What a season without luck costs, of all that has a price; null without prices. */
export function lucklessCost(plan: Plan): number | null {
  return lucklessCosts(plan)?.total ?? null;
}

/** The same by part: null where there is no price, or where too little is told of what it is for. Null without prices. */
export function lucklessCosts(plan: Plan): SeasonCosts | null {
  if (plan.physical?.prices == null) return null;
  const tallies = new Tallies(plan);
  tallies.add(lucklessSeason(plan));
  return seasonCosts(plan, tallies);
}

/** Seasons that tell what a head costs: three a section, so that in two of them the tank is looked at. */
export const COST_SEASONS = 120;

const COST_A_HEAD = FIGURES.find(({ name }) => name === 'cost_a_head')!;

/**
 * What a head of a plan costs, with luck, over whole seasons: the seasons of `run` with another seed (`costSeed`). None of them is one by
 * which the plan was chosen, for of those it had better ones than others.
 * @returns null if nothing is picked, or if stopped
 */
export async function costAHead(plan: Plan, seed: number, pause?: Pause): Promise<Estimate | null> {
  const jobs = [{ plan, seasons: COST_SEASONS, trials: 0 }];
  const workload = { seed: costSeed(seed), sections: sectionsFor(COST_SEASONS), jobs };
  const gathered = await gather(workload, pause && { pause });
  if (gathered.whole(0).seasons < COST_SEASONS) return null;
  return figureOf(samplesOf(gathered, 0, plan, 0), COST_A_HEAD);
}

/** The seed of the seasons that tell what a head costs, beside that of the search. */
function costSeed(seed: number): number {
  return seed === Number.MAX_SAFE_INTEGER ? 0 : seed + 1;
}
