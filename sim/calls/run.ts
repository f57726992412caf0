/** `run`: many seasons of one plan. */

import type { Plan } from '../models/plan.js';
import { type RunResult, runStudy } from '../study/summary.js';
import { carriedOut, type StudyOptions, seasonsAndSeed } from './carry-out.js';

/**
 * Many seasons of one plan: what it yields in a usual week and in a bad one, where the hole-days went, what holds it back.
 *
 * @throws RangeError if an option is out of range; the signal's reason if it was stopped before the first season was over
 * @example
 * ```ts
 * const result = await run(plan, { seasons: 200 });
 * console.log(result.running?.p50); // heads in a usual week
 * ```
 */
export async function run(plan: Plan, options: StudyOptions = {}): Promise<RunResult> {
  const { seasons, seed } = seasonsAndSeed([plan], options);
  return carriedOut(runStudy(plan, seed, seasons), options);
}
