/**
 * The most heads a week that a plan can give in the long run, if plants were a fluid: what holes and times,
 * what is sown and what is wanted allow, before anything has to wait.
 *
 * A plant that grows in a stage takes its mean days there from the hole-days of the stage, so no line can
 * pass on more plants a day than holes / days, whatever its rules (Denning & Buzen 1978, Computing Surveys
 * 10:225, from memory; for a stage it is Little's law). Losses and cleaning take hole-days that no head comes
 * from. Waiting, for a visit or for a free hole, is not counted: a real line stays below the bound.
 *
 * With several crops the bound holds for the mix in which they are sown: crops with a cadence as their seeds
 * fall due, refilled ones at the rates of refill.ts (equal parts of the holes that are left). Where seeds
 * find no cell the mix shifts to the crops that are named first, and a line of such plants can then give more
 * than the bound of the mix, or less.
 */

import { losslessCrop } from '../../models/growings.js';
import { growthClock } from '../../models/growth-clock.js';
import {
  type CropPlan,
  type Growing,
  holesOf,
  type Plan,
  seasonDays,
  seedsDueOf,
} from '../../models/plan.js';
import { type Refill, refills } from '../../models/refill.js';
import * as route from '../../models/route.js';
import { wantedFrom } from '../figures/per-hole-and-head.js';

/** Most heads a week, and which stage allows no more (the first of equals). */
export interface StagesBound {
  readonly heads_a_week: number;
  /** Name of the stage. */
  readonly by: string;
}

export interface FluidBound {
  /** Holes and mean times alone. */
  readonly pure: StagesBound;
  /**
   * With seeds that fail and plants that die. Above `pure` only for odd crops of several cuts whose regrowth
   * takes longer than growing anew: there a loss makes room.
   */
  readonly with_losses: StagesBound;
  /** With losses and the days of cleaning. */
  readonly with_cleaning: StagesBound;
  /** What each stage allows, losses and cleaning counted. */
  readonly stages: readonly { readonly name: string; readonly heads_a_week: number }[];
  /** What the seeds that fall due bring if all find a cell; null if a crop is sown to refill. */
  readonly sowing: number | null;
  /** What is wanted; null if all that is ready is picked. */
  readonly want: number | null;
  /** The least of what stages, sowing and want allow. */
  readonly heads_a_week: number;
  /** Name of the stage, 'sowing' or 'want': which it is (of equals the first in this order). */
  readonly by: string;
}

/** The bound of a plan. */
export function fluidBound(plan: Plan): FluidBound {
  const seeds = seedsInMix(plan);
  const used = (crop: CropPlan): Use => useOf(crop, seasonDays(plan));
  const uses = plan.crops.map(used);
  const cleanDays = plan.stages.map((stage) => stage.cleanDays);
  const noCleaning = plan.stages.map(() => 0);
  const pure = stageBounds(plan, seeds, plan.crops.map(losslessCrop).map(used), noCleaning);
  const stages = stageBounds(plan, seeds, uses, cleanDays);
  const sowing = sowingBound(plan, uses);
  const want = plan.want === null ? null : (7 * wantedFrom(plan, 0)) / seasonDays(plan);
  const all = [...stages];
  if (sowing !== null) all.push({ name: 'sowing', heads_a_week: sowing });
  if (want !== null) all.push({ name: 'want', heads_a_week: want });
  return {
    pure: least(pure),
    with_losses: least(stageBounds(plan, seeds, uses, noCleaning)),
    with_cleaning: least(stages),
    stages,
    sowing,
    want,
    ...least(all),
  };
}

/** What a seed of a crop brings and takes, on average, if nothing has to wait. */
interface Use {
  /** Picks of a seed. */
  readonly heads: number;
  /** Share of the seeds that come into each stage. */
  readonly entering: readonly number[];
  /** Hole-days of a seed in each stage [d]. */
  readonly days: readonly number[];
}

/**
 * A plant that dies does so at a uniform moment of its time, so it takes half of it; a seed that does not
 * sprout takes all of it. A plant of several cuts stays in its hole and may die before each of them.
 */
function useOf(crop: CropPlan, season: number): Use {
  const entering: number[] = [];
  const days: number[] = [];
  let alive = 1;
  crop.stages.forEach((growing, s) => {
    const { loss } = growing;
    const sprouting = s === route.first(crop) ? crop.germination : 1;
    entering.push(alive);
    days.push(alive * meanDays(growing, season) * (1 - (sprouting * loss) / 2));
    alive *= sprouting * (1 - loss);
  });
  let heads = alive;
  if (crop.regrow !== null) {
    const { loss } = crop.regrow;
    const again = meanDays(crop.regrow, season);
    for (let cut = 1; cut < crop.cuts; cut++) {
      days[route.last(crop)]! += alive * again * (1 - loss / 2);
      alive *= 1 - loss;
      heads += alive;
    }
  }
  return { heads, entering, days };
}

/** Mean days of a growth; where they change by date, those of a hole that grows one plant after the other all season. */
function meanDays(growing: Growing, season: number): number {
  const { days } = growing.time;
  const clock = growthClock(growing);
  return clock === null ? days : (days * season) / clock.growth(0, season);
}

/** What each stage allows when crops are sown as `seeds` to each other. */
function stageBounds(
  plan: Plan,
  seeds: readonly number[],
  uses: readonly Use[],
  cleanDays: readonly number[],
): { name: string; heads_a_week: number }[] {
  const heads = uses.reduce((sum, use, c) => sum + seeds[c]! * use.heads, 0);
  return plan.stages.map((stage, s) => {
    const taken = uses.reduce(
      (sum, use, c) => sum + seeds[c]! * (use.days[s]! + use.entering[s]! * cleanDays[s]!),
      0,
    );
    return { name: stage.name, heads_a_week: heads > 0 ? (7 * holesOf(stage) * heads) / taken : 0 };
  });
}

function least(bounds: readonly { name: string; heads_a_week: number }[]): StagesBound {
  const { name, heads_a_week } = bounds.reduce((best, bound) =>
    bound.heads_a_week < best.heads_a_week ? bound : best,
  );
  return { heads_a_week, by: name };
}

/** Seeds a day of each crop, as they are meant to be sown; all alike if none ever are [1/d]. */
function seedsInMix(plan: Plan): number[] {
  const rates = refills(plan);
  const seeds = plan.crops.map((crop, c) => seedsADay(plan, crop) + seedsRefilled(rates[c]!));
  return seeds.some((count) => count > 0) ? seeds : seeds.map(() => 1);
}

/** Seeds a day that fall due; 0 for a refilled crop [1/d]. */
function seedsADay(plan: Plan, crop: CropPlan): number {
  return seedsDueOf(plan, crop) / seasonDays(plan);
}

function seedsRefilled(refill: Refill | null): number {
  return refill !== null && refill.chances[0]! > 0 ? refill.rate / refill.chances[0]! : 0;
}

function sowingBound(plan: Plan, uses: readonly Use[]): number | null {
  if (plan.crops.some((crop) => crop.sowing.kind === 'refill')) return null;
  return 7 * plan.crops.reduce((sum, crop, c) => sum + seedsADay(plan, crop) * uses[c]!.heads, 0);
}
