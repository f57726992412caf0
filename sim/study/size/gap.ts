/**
 * Why a line gives less than its holes and times allow: a ladder of lines, each with one more thing of the real world, run
 * with the same luck.
 *
 * From what the fluid bound allows (bound.ts) down to the plan as it is:
 *
 *     holes / time           the scarcest stage, always full (no line)
 *     sown_or_wanted         no more than is sown or wanted (no line)
 *     batches                a line: every plant takes the same time, none is lost, nobody cleans, somebody is always there
 *     spread                 growing times spread
 *     visits                 it is tended on its visits only
 *     losses                 seeds fail, plants die, and what waits too long is thrown away
 *     cleaning               holes are cleaned
 *     absence                nobody comes while somebody is away, whatever is lost by that
 *
 * Each step is what the line loses (or gains) when its thing is added to all above it; so the steps add up, and what a step
 * is depends on those above. `batches` holds all that keeps a line without any chance below the bound: plants are no fluid and come
 * in batches, it has to fill, and weeks cut through its rhythm; over few weeks it can also be above the bound.
 */

import { growingsOf, losslessCrop, withGrowings } from '../../models/growings.js';
import type { Growing, Plan } from '../../models/plan.js';
import { neverAway } from '../../seasons/changes.js';
import type { Estimate } from '../../seasons/sections.js';
import { differenceOf, figureOf } from '../figures/estimates.js';
import type { Figure, Samples } from '../figures/figure.js';
import { fluidBound, type StagesBound } from './bound.js';

/** The steps from the bound down, in this order. */
export const GAP_STEPS = [
  'sown_or_wanted',
  'batches',
  'spread',
  'visits',
  'losses',
  'cleaning',
  'absence',
] as const;

export interface GapStep {
  readonly name: (typeof GAP_STEPS)[number];
  /** What it adds to the heads a week. */
  readonly change: Estimate;
}

export interface Gap {
  /** What holes and times allow, and the stage that allows no more. */
  readonly holes_over_time: StagesBound;
  readonly steps: readonly GapStep[];
  /** Heads a week of the plan as it is, in the seasons of the ladder: the bound and all steps together. */
  readonly heads_a_week: number;
  readonly seasons: number;
}

/**
 * The lines of the ladder: without spread, visits, losses, cleaning and absence; then with each of them, the plan itself last.
 * A thing that the plan does not know gives the same object twice.
 */
export function ladderOf(plan: Plan): readonly Plan[] {
  const present = neverAway(plan);
  const uncleaned = withoutCleaning(present);
  const lossless = withoutLosses(uncleaned);
  const attended = alwaysVisited(lossless);
  return [withoutSpread(attended), attended, lossless, uncleaned, present, plan];
}

/**
 * The gap of a plan.
 * @param ideal the first line of its ladder
 * @param rungs what the lines of the ladder gave, in its order
 * @param heads the figure that counts heads a week
 * @returns null if one of them was not run, or gave no such figure
 */
export function explainGap(ideal: Plan, rungs: readonly (Samples | null)[], heads: Figure): Gap | null {
  const bound = fluidBound(ideal);
  const run = rungs.filter((rung) => rung !== null);
  const first = run.length === rungs.length ? figureOf(run[0]!, heads) : null;
  if (first === null) return null;
  const changes: (Estimate | null)[] = [
    exactly(bound.heads_a_week - bound.pure.heads_a_week),
    shifted(first, -bound.heads_a_week),
    ...run.slice(1).map((rung, i) => (rung === run[i]! ? exactly(0) : differenceOf(rung, run[i]!, heads))),
  ];
  const steps = GAP_STEPS.flatMap((name, i) => (changes[i] ? [{ name, change: changes[i] }] : []));
  if (steps.length < GAP_STEPS.length) return null;
  const last = run.at(-1)!;
  return {
    holes_over_time: bound.pure,
    steps,
    heads_a_week: heads.of(last.all),
    seasons: last.all.tallies.seasons,
  };
}

function exactly(mean: number): Estimate {
  return { mean, low: mean, high: mean };
}

function shifted({ mean, low, high }: Estimate, by: number): Estimate {
  return {
    mean: mean + by,
    low: low === null ? null : low + by,
    high: high === null ? null : high + by,
  };
}

function withoutCleaning(plan: Plan): Plan {
  if (plan.stages.every(({ cleanDays }) => cleanDays === 0)) return plan;
  return { ...plan, stages: plan.stages.map((stage) => ({ ...stage, cleanDays: 0 })) };
}

function alwaysVisited(plan: Plan): Plan {
  return plan.visits.kind === 'always' ? plan : { ...plan, visits: { kind: 'always' } };
}

function withoutLosses(plan: Plan): Plan {
  const lossless = ({ loss, keeps }: Growing): boolean => loss === 0 && keeps === Number.POSITIVE_INFINITY;
  if (plan.crops.every((crop) => crop.germination === 1 && growingsOf(crop).every(lossless))) return plan;
  return { ...plan, crops: plan.crops.map(losslessCrop) };
}

function withoutSpread(plan: Plan): Plan {
  const fixed = ({ time }: Growing): boolean => time.spread === 0;
  if (plan.crops.every((crop) => growingsOf(crop).every(fixed))) return plan;
  const change = (growing: Growing): Growing => ({
    ...growing,
    time: { shape: 'fixed', days: growing.time.days, spread: 0, times: [] },
  });
  return { ...plan, crops: plan.crops.map((crop) => withGrowings(crop, change)) };
}
