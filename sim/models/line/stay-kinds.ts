/** The kinds of stay in a line, a crop in a stage or between two cuts: what is the same for all stays of a kind. */

import { softplus, softplusIntegral } from '../../engine/softplus.js';
import { SPAN } from '../../engine/softplus-table.js';
import { type CoverCurve, LEAF_LAYERS, SHORT_CLIMB } from '../physical/cover.js';
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
  /** Water in a plant at the beginning and at the end [L], and in a gram of it, dry. */
  readonly fromL: number;
  readonly toL: number;
  readonly litresAG: number;
}

/**
 * Constants of a curve (physical/cover.ts) for many stays at once, by the table of softplus: their places among the numbers of a kind. Where u
 * has come, L = start + pace x (u - shows).
 */
export const QUICK = {
  /** 1; 0 where L climbs too little to divide by, or leaves the table: then the curve is asked. */
  there: 0,
  shows: 1,
  start: 2,
  pace: 3,
  /** Softplus and its integral at the start. */
  from: 4,
  fromIntegral: 5,
  /** L from which on no more leaf layers count, at least the start; integral of leaf layers over L up to there, less all of them at full. */
  full: 6,
  upToFull: 7,
  /** Leaf layers, and litres in the plant, for softplus of 1. */
  layers: 8,
  litres: 9,
  /** Of a whole stay: F(1) and G(1). */
  wholeCover: 10,
  wholeLayers: 11,
  /** Share of the stay in which L climbs by 1. */
  climbs: 12,
  size: 13,
} as const;

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
    litresAG: plantL(matter, c, 1),
  };
}

/** The numbers of QUICK of each kind, one behind the other. */
export function quickCurves(kinds: StayPlan['kinds']): Float64Array {
  const numbers = new Float64Array(kinds.length * QUICK.size);
  for (const [k, kind] of kinds.entries()) {
    if (kind !== null) numbers.set(quickCurve(kind), k * QUICK.size);
  }
  return numbers;
}

function quickCurve({ curve, cover, layers, litresAG }: StayKind): Float64Array {
  const { start, climb, fullLeaf, extinction, perG } = curve.constants;
  const full = Math.max(start, fullLeaf);
  const fromIntegral = softplusIntegral(start);
  const numbers = new Float64Array(QUICK.size);
  numbers[QUICK.there] = climb < SHORT_CLIMB || start < -SPAN || start + climb >= SPAN ? 0 : 1;
  numbers[QUICK.shows] = curve.showsAt;
  numbers[QUICK.start] = start;
  numbers[QUICK.pace] = climb / (1 - curve.showsAt);
  numbers[QUICK.climbs] = (1 - curve.showsAt) / climb;
  numbers[QUICK.from] = softplus(start);
  numbers[QUICK.fromIntegral] = fromIntegral;
  numbers[QUICK.full] = full;
  numbers[QUICK.upToFull] = (softplusIntegral(full) - fromIntegral) / extinction - LEAF_LAYERS * full;
  numbers[QUICK.layers] = 1 / extinction;
  numbers[QUICK.litres] = litresAG / perG;
  numbers[QUICK.wholeCover] = cover;
  numbers[QUICK.wholeLayers] = layers;
  return numbers;
}
