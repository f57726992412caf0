/**
 * The masses at which a crop's plants leave the stages, from what the grower knows: mean days, light, and the head at the end.
 *
 * One light use efficiency is solved so that the mean days without waiting give the head; a plant that was weighed at the end of a
 * stage ends a span with an efficiency of its own.
 */

import { inverseSoftplus, softplus } from '../../engine/softplus.js';
import { failure, type Result, success } from '../result.js';
import { coverPerG } from './cover.js';
import { showsAt } from './emergence.js';
import type { Leaf } from './tissue.js';

/** Efficiencies that crops under lamps have [g of plant per mol on leaves]: see isUsual. */
export const USUAL_EFFICIENCY = { least: 0.5, most: 1.6 } as const;

/**
 * Is it an efficiency that crops have? Measured under lamps: 0.76 to 1.23 g of shoot per mol on the bed (Carotti et al. 2021), 1.3 to
 * 1.47 per mol at a closed canopy (derived from Wheeler et al.). If not, something that was told is doubtful.
 */
export function isUsual(efficiency: number): boolean {
  return efficiency >= USUAL_EFFICIENCY.least && efficiency <= USUAL_EFFICIENCY.most;
}

/** A stage that a crop passes. */
export interface CourseStage {
  /** Its place in the plan. */
  readonly stage: number;
  readonly areaM2: number;
  /** Mean days [d]. */
  readonly days: number;
  /** Light in which they hold [mol m-2 d-1]. */
  readonly dli: number;
  /** Days until a seed shows [d]; 0 where plants come in. */
  readonly emergence: number;
  /** Dry mass of the whole plant at the end [g]; null: to be found. In the last stage it is known. */
  readonly endG: number | null;
}

export interface Course {
  /** Dry mass of the whole plant at the end of each of the stages [g]. */
  readonly endG: readonly number[];
  /** Light use efficiency of each span [g of plant per mol on leaves]. */
  readonly efficiencies: readonly number[];
}

/** Why no efficiency gives what was told: the stage at whose end the mass is known, by its place in the plan. */
export interface CourseFault {
  /**
   * `no_light`: the stages of the span are dark. `no_gain`: it is not heavier than what came before. `no_growth`: an area so small, or
   * days so few, that no efficiency that is a number leads there.
   */
  readonly kind: 'no_light' | 'no_gain' | 'no_growth';
  readonly stage: number;
  /** Dry mass of the whole plant before the span and at its end [g]. */
  readonly fromG: number;
  readonly toG: number;
}

/**
 * @param seedG dry mass of what is sown in a hole [g]
 * @param stages in the order in which plants pass them; the last has its `endG`
 * @throws RangeError if the last stage's mass is not known
 */
export function solveCourse(
  leaf: Leaf,
  seedG: number,
  stages: readonly CourseStage[],
): Result<Course, CourseFault> {
  const endG: number[] = [];
  const efficiencies: number[] = [];
  let fromG = seedG;
  let span: CourseStage[] = [];
  for (const stage of stages) {
    span.push(stage);
    const toG = stage.endG;
    if (toG === null) continue;
    const fault = (kind: CourseFault['kind']) => failure([{ kind, stage: stage.stage, fromG, toG }]);
    if (!(toG > fromG)) return fault('no_gain');
    if (!span.some(({ dli, days }) => dli > 0 && days > 0)) return fault('no_light');
    const efficiency = solve(leaf, fromG, span, toG);
    const masses = grown(leaf, fromG, span, efficiency);
    if (![efficiency, ...masses].every(Number.isFinite)) return fault('no_growth');
    efficiencies.push(efficiency);
    endG.push(...masses);
    // What was solved for, to the last digit.
    endG[endG.length - 1] = toG;
    fromG = toG;
    span = [];
  }
  if (span.length > 0) throw new RangeError('the mass at the end of the last stage must be known');
  return success({ endG, efficiencies });
}

/** Climb of L in a stage (see cover.ts). @param days of light on a plant that shows [d] */
function climb(leaf: Leaf, efficiency: number, dli: number, days: number): number {
  return leaf.extinction * leaf.m2PerG * efficiency * dli * days;
}

/** Masses at the end of each stage of a span [g]. */
function grown(leaf: Leaf, fromG: number, span: readonly CourseStage[], efficiency: number): number[] {
  let w = fromG;
  return span.map(({ areaM2, dli, days, emergence }) => {
    const perG = coverPerG(leaf, areaM2);
    const lit = climb(leaf, efficiency, dli, days * (1 - showsAt(emergence, days)));
    if (lit > 0) w = softplus(inverseSoftplus(perG * w) + lit) / perG;
    return w;
  });
}

/** The efficiency with which a span ends with `toG`: what is grown rises with it, so it is shut in between two. Infinity if none does. */
function solve(leaf: Leaf, fromG: number, span: readonly CourseStage[], toG: number): number {
  const reaches = (efficiency: number): boolean => grown(leaf, fromG, span, efficiency).at(-1)! >= toG;
  let most = 1;
  while (most < Number.POSITIVE_INFINITY && !reaches(most)) most *= 2;
  let least = 0;
  for (;;) {
    const middle = (least + most) / 2;
    if (middle <= least || middle >= most) return most;
    if (reaches(middle)) most = middle;
    else least = middle;
  }
}

/** The efficiency with which a plant goes from one mass to another in one stage [g per mol on leaves]; Infinity without light. */
export function efficiencyBetween(
  leaf: Leaf,
  { areaM2, dli, days }: Pick<CourseStage, 'areaM2' | 'dli' | 'days'>,
  fromG: number,
  toG: number,
): number {
  return climbBetween(leaf, areaM2, fromG, toG) / climb(leaf, 1, dli, days);
}

/** Days in which a plant goes from one mass to another in one stage [d]. @param efficiency [g per mol on leaves] */
export function daysBetween(
  leaf: Leaf,
  { areaM2, dli }: Pick<CourseStage, 'areaM2' | 'dli'>,
  efficiency: number,
  fromG: number,
  toG: number,
): number {
  return climbBetween(leaf, areaM2, fromG, toG) / climb(leaf, efficiency, dli, 1);
}

function climbBetween(leaf: Leaf, areaM2: number, fromG: number, toG: number): number {
  const perG = coverPerG(leaf, areaM2);
  return inverseSoftplus(perG * toG) - inverseSoftplus(perG * fromG);
}
