/** How many seasons a study takes, and how far is looked ahead when nobody says. */

import type { Limits } from '../models/limits.js';
import type { Plan } from '../models/plan.js';
import { plantsOf } from './workload.js';

/** Seasons that a study takes. */
export const SEASONS: Limits = { least: 1, most: 1_000_000 };

/** Seasons of a study when nobody says how many, fewer of a very large line. */
export const USUAL_SEASONS = 200;
/** Weeks of a look ahead, and days of a work list. */
export const USUAL_WEEKS = 8;
export const USUAL_DAYS = 14;

/** Plants that the default number of seasons may take together, about half a minute of one core. */
const DEFAULT_PLANTS = 3e7;

/** Seasons to run when nobody says how many: the usual number; fewer, but at least 20, of a very large line. */
export function defaultSeasons(plan: Plan): number {
  return Math.max(20, Math.min(USUAL_SEASONS, Math.floor(DEFAULT_PLANTS / Math.max(1, plantsOf(plan)))));
}
