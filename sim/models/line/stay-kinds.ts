/** The kinds of stay in a line, a crop in a stage or between two cuts: what is the same for all stays of a kind. */

import type { CoverCurve } from '../physical/cover.js';
import { curveOf, type LineMatter, lineMatter, plantL } from '../physical/line-matter.js';
import { readyL } from '../physical/stay-water.js';
import type { Plan } from '../plan.js';
import { TakesColumns } from '../takes.js';

export interface StayKind {
  readonly curve: CoverCurve;
  /** Of a whole stay, for each day drawn for it: days of light on leaves, and of leaf layers that give off water (F(1), G(1)). */
  readonly cover: number;
  readonly layers: number;
  /** What a ready plant gives off in a day [L]; 0 where it is not told. */
  readonly readyL: number;
  /** Water in a plant at the beginning and at the end [L]. */
  readonly fromL: number;
  readonly toL: number;
}

/** What the stays of a plan are booked by. */
export interface StayPlan {
  readonly plan: Plan;
  readonly matter: LineMatter;
  readonly columns: TakesColumns;
  /**
   * Crop c in stage s at s x crops + c; between two cuts s is the number of stages. null where there is no such stay. Empty where the course
   * of a crop is not known: then nothing is told of leaves and water.
   */
  readonly kinds: readonly (StayKind | null)[];
}

/** @returns null where the plan tells of nothing but holes */
export function stayPlan(plan: Plan): StayPlan | null {
  const matter = lineMatter(plan);
  if (matter === null) return null;
  const { stages, crops } = plan;
  const count = matter.grows ? (stages.length + 1) * crops.length : 0;
  const kinds = Array.from({ length: count }, (_, k) =>
    kindOf(matter, k % crops.length, Math.floor(k / crops.length)),
  );
  return { plan, matter, columns: new TakesColumns(plan, matter), kinds };
}

function kindOf(matter: LineMatter, c: number, s: number): StayKind | null {
  const curve = curveOf(matter, c, s);
  if (curve === null) return null;
  const { water } = matter.stages[s] ?? matter.stages.at(-1)!;
  return {
    curve,
    cover: curve.coverTime(1),
    layers: curve.leafTime(1),
    readyL: water === null ? 0 : matter.physical.waterScale * readyL(curve, water.day),
    fromL: plantL(matter, c, curve.fromG),
    toL: plantL(matter, c, curve.toG),
  };
}
