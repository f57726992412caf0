/**
 * `sow: {refill: true}`: at each visit, sow what the line will miss.
 *
 * The rule. A line that runs to plan takes in X plants a day for each crop, for ever, where X is what its scarcest
 * stage can pass on. A plant that will be picked stands W days in the line (where heads are wanted on some days only, up
 * to the longest gap between them: what they need has to be gathered). So at day t, provided until the next
 * visit `gap` days later, the line should hold X x min(t + gap, W) plants that will be picked. What stands in it is
 * counted with the chance that each still has of being picked; the difference is sown, divided by the chance of a
 * seed, rounded up, at most as many as there are free cells (so a refill never leaves seeds unsown).
 *
 * X is the least of: holes of a stage / days that a plant (with its share of those that fail on the way) needs there,
 * cleaning and the mean waits for visits and wanted days included; and what is wanted a day. Crops with a cadence of their own are
 * served first; several refilled crops share the rest of every stage in equal parts.
 */

import { type CropPlan, holesOf, type Plan, seasonDays, seedsDueOf } from './plan.js';
import * as route from './route.js';
import { longestWaitForPick, meanWaitForPick, meanWaitForVisit } from './visits.js';

/** What refilling needs to know of one crop. */
export interface Refill {
  /** Plants that will be picked, taken in a day [1/d]. */
  readonly rate: number;
  /** Days that a plant which is picked stands in the line [d]. */
  readonly stay: number;
  /** Chance of a plant that stands in stage s of giving its first pick, one entry a stage; [0] is that of a seed. */
  readonly chances: readonly number[];
}

/** Chance of a plant on entering each stage (of a seed on sowing) of being picked at least once. */
export function chancesToPick(crop: CropPlan): number[] {
  const chances = new Array<number>(crop.stages.length);
  let chance = 1;
  for (let s = route.last(crop); s >= 0; s = route.before(crop, s)) {
    chance *= 1 - crop.stages[s]!.loss;
    chances[s] = chance;
  }
  chances[route.first(crop)]! *= crop.germination;
  return chances;
}

/** Mean days that a plant of `crop` occupies a hole of stage `s`: growing and waiting; cleaning not included [d]. */
export function meanStay(plan: Plan, crop: CropPlan, s: number): number {
  return stayWith(plan, crop, s, meanWaitForPick(plan));
}

/** @param wait of a ready head of the last stage for its pick [d] */
function stayWith(plan: Plan, crop: CropPlan, s: number, wait: number): number {
  const days = crop.stages[s]!.time.days;
  if (!route.isLast(crop, s)) return days + meanWaitForVisit(plan);
  return days + wait + (crop.cuts - 1) * ((crop.regrow?.time.days ?? 0) + wait);
}

/** The refill of each crop; null for crops that have a cadence. */
export function refills(plan: Plan): (Refill | null)[] {
  const sharers = plan.crops.filter((crop) => crop.sowing.kind === 'refill').length;
  return plan.crops.map((crop) => {
    if (crop.sowing.kind !== 'refill') return null;
    const chances = chancesToPick(crop);
    let rate = Infinity;
    let stay = 0;
    for (let s = 0; s < plan.stages.length; s++) {
      const stage = plan.stages[s]!;
      const free = Math.max(0, holesOf(stage) - holesUsedByCadences(plan, s)) / sharers;
      const needed = meanStay(plan, crop, s) + stage.cleanDays;
      rate = Math.min(rate, (free * chances[s]!) / needed);
      stay += stayWith(plan, crop, s, longestWaitForPick(plan));
    }
    if (plan.want !== null) {
      const wanted = (plan.want.heads * plan.want.days.length) / seasonDays(plan);
      rate = Math.min(rate, Math.max(0, wanted - picksOfCadences(plan)) / (sharers * crop.cuts));
    }
    return { rate, stay, chances };
  });
}

/**
 * Seeds to sow now.
 * @param refill of the crop
 * @param t now [d]
 * @param gap days until the next visit [d]
 * @param standing plants of the crop in each stage (those that are known to be dead are cleared already)
 */
export function seedsToRefill(
  refill: Refill,
  t: number,
  gap: number,
  standing: (stage: number) => number,
): number {
  let expected = 0;
  for (let s = 0; s < refill.chances.length; s++) expected += refill.chances[s]! * standing(s);
  const missing = refill.rate * Math.min(t + gap, refill.stay) - expected;
  // A seed without a chance would be sown for ever; rounding noise must not sow a seed.
  return refill.chances[0]! > 0 ? Math.max(0, Math.ceil(missing / refill.chances[0]! - 1e-9)) : 0;
}

/** Seeds a day of a crop with a cadence; 0 for a refilled one [1/d]. */
function seedsPerDay(plan: Plan, crop: CropPlan): number {
  return seedsDueOf(plan, crop) / seasonDays(plan);
}

/** Mean holes of stage `s` that the crops with a cadence use, cleaning included. */
function holesUsedByCadences(plan: Plan, s: number): number {
  let used = 0;
  for (const crop of plan.crops) {
    let entering = seedsPerDay(plan, crop);
    for (let k = route.first(crop); k < s; k = route.next(crop, k))
      entering *= (1 - crop.stages[k]!.loss) * (k === route.first(crop) ? crop.germination : 1);
    used += entering * (meanStay(plan, crop, s) + plan.stages[s]!.cleanDays);
  }
  return used;
}

/** Picks a day that the crops with a cadence give when nothing holds them up [1/d]. */
function picksOfCadences(plan: Plan): number {
  let picks = 0;
  for (const crop of plan.crops) picks += seedsPerDay(plan, crop) * chancesToPick(crop)[0]! * crop.cuts;
  return picks;
}
