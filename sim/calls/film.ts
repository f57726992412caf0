/** `film`: one season, day by day. */

import type { Plan } from '../models/plan.js';
import { type Film, filmOf } from '../study/film/film.js';

/**
 * One season of a plan, day by day: what stands in every hole, and what was done.
 *
 * @param options `seed` of the luck (left out: the plan's own), `season` its number, from 0 (left out: 0); `mostHoles`: only the
 * counts of a line of more holes are kept (left out: 20 000)
 * @example
 * ```ts
 * const season = film(plan, { season: 3 });
 * ```
 */
export function film(
  plan: Plan,
  {
    seed = plan.seed,
    season = 0,
    mostHoles,
  }: { readonly seed?: number; readonly season?: number; readonly mostHoles?: number } = {},
): Film {
  return filmOf(plan, seed, season, mostHoles === undefined ? {} : { mostHoles });
}
