/** How many seasons a study takes. */

import type { Limits } from '../models/limits.js';
import type { Plan } from '../models/plan.js';
import { plantsOf } from './workload.js';

/** Seasons that a study takes. */
export const SEASONS: Limits = { least: 1, most: 1_000_000 };

/** Plants that the default number of seasons may take together, about half a minute of one core. */
const DEFAULT_PLANTS = 3e7;

/** Seasons to run when nobody says how many: 200; fewer, but at least 20, of a very large line. */
export function defaultSeasons(plan: Plan): number {
  return Math.max(20, Math.min(200, Math.floor(DEFAULT_PLANTS / Math.max(1, plantsOf(plan)))));
}
