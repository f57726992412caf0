/** What it saves that plants stand close while they are small: the same crop at its widest spacing from some stage on. */

import { type CourseStage, daysBetween } from './course.js';
import { CoverCurve } from './cover.js';
import { showsAt } from './emergence.js';
import type { Leaf } from './tissue.js';

/** A stage of the course, with its end known. */
export interface SpacedStage extends CourseStage {
  readonly endG: number;
  /** kWh of a hole and day; null: not told. */
  readonly kwhPerHoleDay: number | null;
}

/** What one plant takes. */
export interface SpaceTime {
  readonly days: number;
  /** Area x time [m2 d]. */
  readonly m2Days: number;
  /** Light on its holes, and of that on its leaves [mol]. */
  readonly mol: number;
  readonly molOnLeaves: number;
  /** null: not told. */
  readonly kwh: number | null;
}

/** What a plant takes in some stages, one after the other. @param fromG its dry mass at their beginning [g] */
export function staged(leaf: Leaf, fromG: number, stages: readonly SpacedStage[]): SpaceTime {
  const sum = { days: 0, m2Days: 0, mol: 0, molOnLeaves: 0, kwh: 0 as number | null };
  let w = fromG;
  for (const { areaM2, days, dli, emergence, endG, kwhPerHoleDay } of stages) {
    const curve = new CoverCurve(leaf, areaM2, w, endG, showsAt(emergence, days));
    sum.days += days;
    sum.m2Days += areaM2 * days;
    sum.mol += areaM2 * days * dli;
    sum.molOnLeaves += areaM2 * days * dli * curve.coverTime(1);
    sum.kwh = sum.kwh === null || kwhPerHoleDay === null ? null : sum.kwh + days * kwhPerHoleDay;
    w = endG;
  }
  return sum;
}

/**
 * The same plant in the widest of the stages from their beginning on, in its light, and as efficient as it is in the last one:
 * with a wide hole from the start it is ready earlier.
 * @param efficiency [g of plant per mol on leaves]
 */
export function atWidest(
  leaf: Leaf,
  fromG: number,
  stages: readonly SpacedStage[],
  efficiency: number,
): SpaceTime {
  const widest = stages.reduce((wide, stage) => (stage.areaM2 > wide.areaM2 ? stage : wide));
  const { emergence } = stages[0]!;
  const { endG } = stages.at(-1)!;
  const days = emergence + daysBetween(leaf, widest, efficiency, fromG, endG);
  return staged(leaf, fromG, [{ ...widest, days, emergence, endG }]);
}
