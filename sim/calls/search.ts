/** `search`: the cheapest plan that reaches a goal. */

import { failure, type Result, success } from '../models/result.js';
import { type Grid, gridAround, variationsWithin } from '../scenario/grid.js';
import { toPlan } from '../scenario/plan.js';
import { seedsAWeek, visitsAWeek } from '../scenario/rates.js';
import type { Scenario } from '../scenario/schema.js';
import { type Variation, variationText, vary } from '../scenario/vary.js';
import type { SearchGoal } from '../study/search/budget.js';
import type { Candidate, CostKind, Settings } from '../study/search/candidates.js';
import type { SearchResult } from '../study/search/result.js';
import { searchStudy } from '../study/search/search.js';
import { firstCountedWeek } from '../study/search/weeks.js';
import { carriedOut, type StudyOptions, whole } from './carry-out.js';

/** What a search looks for, where, and how it is carried out. Only `heads` must be given. */
export interface SearchOptions
  extends Omit<StudyOptions, 'seasons'>,
    Pick<SearchGoal, 'heads'>,
    Partial<Omit<SearchGoal, 'heads'>> {
  /** What may be chosen. Left out: limits around the scenario as it is. */
  readonly within?: Grid;
}

/** What a search goes by where nothing is said. */
export const SEARCH_DEFAULTS: Omit<SearchGoal, 'heads'> = {
  weeksMet: 0.9,
  least: 'holes',
  confidence: 0.95,
  near: 0.02,
  first: 20,
  runners: 3,
};

/**
 * The cheapest plan that brings so many heads a week in so large a share of the weeks, with a stated probability of being right.
 *
 * @returns faults, a sentence each, if the limits or the goal do not fit the scenario
 * @throws RangeError if an option is out of range; the signal's reason if it was stopped before anything was known
 * @example
 * ```ts
 * const found = await search(scenario, { heads: 12 });
 * if (found.ok) console.log(found.value.best?.name);
 * ```
 */
export async function search(
  scenario: Scenario,
  options: SearchOptions,
): Promise<Result<SearchResult, string>> {
  const { within = gridAround(scenario), seed = scenario.seed, heads } = options;
  whole('heads', heads, 1, 1_000_000_000);
  const { weeksMet, least, confidence, near, first, runners } = { ...SEARCH_DEFAULTS, ...options };
  const candidates = candidatesWithin(scenario, within, least);
  if (!candidates.ok) return candidates;
  const goal = { heads, weeksMet, least, confidence, near, first, runners };
  return success(await carriedOut(searchStudy(candidates.value, goal, seed), options));
}

/**
 * The plans within some limits, with what they cost.
 * @returns faults if the limits, or the cost that is to be least, do not fit the scenario
 */
export function candidatesWithin(
  scenario: Scenario,
  grid: Grid,
  least: CostKind,
): Result<Candidate[], string> {
  const faults = new Set<string>();
  const candidates: Candidate[] = [];
  for (const variation of variationsWithin(grid)) {
    const varied = vary(scenario, variation);
    if (!varied.ok) {
      for (const fault of varied.faults) faults.add(fault);
      continue;
    }
    const { value } = varied;
    candidates.push({
      name: variationText(variation),
      settings: settingsOf(variation, value),
      plan: toPlan(value),
      seedsAWeek: seedsAWeek(value),
      visitsAWeek: visitsAWeek(value),
    });
  }
  if (faults.size === 0) for (const fault of misfits(scenario, least, candidates)) faults.add(fault);
  return faults.size > 0 ? failure([...faults]) : success(candidates);
}

function* misfits({ stages, weeks }: Scenario, least: CostKind, candidates: readonly Candidate[]) {
  const dark = stages.flatMap(({ hole_area_cm2, name }, s) =>
    hole_area_cm2 === undefined ? [`${name} (stages[${s}].hole_area_cm2)`] : [],
  );
  if (least === 'light' && dark.length > 0) {
    yield `The least light must not be asked for while the area of a hole is not known everywhere. Every stage must say it; missing: ${dark.join(', ')}. Example: hole_area_cm2: 100`;
  }
  if (least === 'seeds' && candidates[0]!.seedsAWeek === null) {
    yield 'The least seeds must not be asked for where a crop is refilled: how many seeds that takes depends on the season. Ask for the least of holes, or give cadences and seeds.';
  }
  const from = firstCountedWeek(candidates.map(({ plan }) => plan));
  if (!(from < weeks)) {
    const settled = Number.isFinite(from) ? `only after ${from} ${from === 1 ? 'week' : 'weeks'}` : 'never';
    yield `The season must not end before the plans can be judged: the slowest has settled ${settled} (first sowing, mean times, twice their standard deviation, longest time without a visit), and the season has ${weeks} ${weeks === 1 ? 'week' : 'weeks'}. Let it run longer, or narrow the limits. Example: weeks: ${Number.isFinite(from) ? from + 16 : 26}`;
  }
}

/** What is chosen, in the keys of the scenario file: a whole `sow` if there is one crop and its sowing is chosen. */
function settingsOf({ cadence, seeds, channels, visits }: Variation, { crops }: Scenario): Settings {
  const sow = crops.length === 1 && (cadence ?? seeds) !== undefined ? crops[0]!.sow : { ...cadence, seeds };
  return {
    ...('every' in sow ? { every: sow.every } : {}),
    ...('on' in sow ? { on: sow.on } : {}),
    ...('seeds' in sow && sow.seeds !== undefined ? { seeds: sow.seeds } : {}),
    ...(channels === undefined ? {} : { channels }),
    ...(visits === undefined ? {} : { visits }),
  };
}
