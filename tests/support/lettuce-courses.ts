/**
 * Three courses of lettuce: 150 g heads at a dry share of 5 %, 1 mg seeds, 350 cm2/g.
 *
 * The first two follow published schedules (see tests/handbook/lettuce-schedule.test.ts): days, plants per m2, and for Cornell 21.6 and
 * 17 mol m-2 d-1. That seedlings stand on 12.5 cm2, and that the second one has the light of the first, is assumed. The third is
 * invented.
 */

import { type CourseStage, solveCourse } from '../../sim/models/physical/course.js';
import { leafOf, wholeDryG } from '../../sim/models/physical/tissue.js';

export const DRY = 0.05;
export const SEED_G = 0.001;
export const LEAF = leafOf(350);
const HEAD_G = wholeDryG(150, DRY);

export interface LettuceCourse {
  readonly name: string;
  readonly stages: readonly CourseStage[];
}

/** @param emergence [d] @param stages days, hole [cm2], light [mol m-2 d-1] */
function course(
  name: string,
  emergence: number,
  stages: readonly (readonly [number, number, number])[],
): LettuceCourse {
  return {
    name,
    stages: stages.map(([days, areaCm2, dli], i) => ({
      stage: i,
      days,
      areaM2: areaCm2 / 1e4,
      dli,
      emergence: i === 0 ? emergence : 0,
      endG: i === stages.length - 1 ? HEAD_G : null,
    })),
  };
}

export const CORNELL = course('Cornell', 47.3 / 17.2, [
  [11, 12.5, 21.6],
  [10, 1e4 / 97, 17],
  [14, 1e4 / 38, 17],
]);
export const RUTGERS = course('Rutgers', 47.3 / 17.2, [
  [12, 12.5, 21.6],
  [10, 1e4 / 81, 17],
  [14, 1e4 / 28, 17],
]);
export const THIRD = course('third course', 47.3 / 19.2, [
  [8, 20, 8.64],
  [13, 81, 11.52],
  [20, 400, 14.976],
]);

/** A course that is solved: masses at the end of its stages [g], and its efficiency [g/mol]. */
export function solved(
  { stages }: LettuceCourse,
  leaf = LEAF,
): { endG: readonly number[]; efficiency: number } {
  const result = solveCourse(leaf, SEED_G, stages);
  if (!result.ok) throw new Error(`no course: ${JSON.stringify(result.faults)}`);
  return { endG: result.value.endG, efficiency: result.value.efficiencies[0]! };
}
