/** `search`: the cheapest plan that reaches a goal. */

import { HEADS, type Limits, SEED, wholeWithin, within } from '../models/limits.js';
import type { Prices } from '../models/physical/plan.js';
import { failure, type Result, success } from '../models/result.js';
import { costsTold } from '../models/untold-costs.js';
import { type Grid, gridAround, variationsWithin } from '../scenario/grid.js';
import { toPlan } from '../scenario/plan.js';
import { seedsAWeek, visitsAWeek } from '../scenario/rates.js';
import type { Scenario } from '../scenario/schema.js';
import { type Variation, variationText, vary } from '../scenario/vary.js';
import type { SearchGoal } from '../study/search/budget.js';
import { type Candidate, COST_KINDS, type CostKind, type Settings } from '../study/search/candidates.js';
import type { SearchResult } from '../study/search/result.js';
import { searchStudy } from '../study/search/search.js';
import { firstCountedWeek } from '../study/search/weeks.js';
import { carriedOut, type StudyOptions, workersOf } from './carry-out.js';

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

/** What the numbers of a search may be, beside the heads. */
export const SEARCH_LIMITS: Record<keyof Omit<SearchGoal, 'heads' | 'least'>, Limits> = {
  weeksMet: { least: 0.01, most: 1 },
  confidence: { least: 0.6, most: 0.9999 },
  near: { least: 0.005, most: 0.2 },
  first: { least: 5, most: 1000 },
  runners: { least: 0, most: 20 },
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
  const { within: grid = gridAround(scenario), seed = scenario.seed } = options;
  const goal = checkedGoal({ ...SEARCH_DEFAULTS, ...options });
  wholeWithin('seed', seed, SEED);
  workersOf(options);
  const candidates = candidatesWithin(scenario, grid, goal.least);
  if (!candidates.ok) return candidates;
  return success(await carriedOut(searchStudy(candidates.value, goal, seed), options));
}

/** @throws RangeError if one of its figures is out of range */
function checkedGoal({ heads, weeksMet, least, confidence, near, first, runners }: SearchGoal): SearchGoal {
  if (!COST_KINDS.includes(least)) {
    throw new RangeError(`least must be one of ${COST_KINDS.join(', ')}: ${least}`);
  }
  return {
    heads: wholeWithin('heads', heads, HEADS),
    weeksMet: within('weeksMet', weeksMet, SEARCH_LIMITS.weeksMet),
    least,
    confidence: within('confidence', confidence, SEARCH_LIMITS.confidence),
    near: within('near', near, SEARCH_LIMITS.near),
    first: wholeWithin('first', first, SEARCH_LIMITS.first),
    runners: wholeWithin('runners', runners, SEARCH_LIMITS.runners),
  };
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
  if (least === 'kwh') yield* unlit(stages);
  if (least === 'cost') yield* unpriced(stages, candidates[0]!);
  if (least === 'seeds' && candidates[0]!.seedsAWeek === null) {
    yield 'The least seeds must not be asked for where a crop is refilled: how many seeds that takes depends on the season. Ask for the least of holes, or give cadences and seeds.';
  }
  const from = firstCountedWeek(candidates.map(({ plan }) => plan));
  if (!(from < weeks)) {
    const settled = Number.isFinite(from) ? `only after ${from} ${from === 1 ? 'week' : 'weeks'}` : 'never';
    yield `The season must not end before the plans can be judged: the slowest has settled ${settled} (first sowing, mean times, twice their standard deviation, longest time without a visit), and the season has ${weeks} ${weeks === 1 ? 'week' : 'weeks'}. Let it run longer, or narrow the limits. Example: weeks: ${Number.isFinite(from) ? from + 16 : 26}`;
  }
}

/** Of kWh: which keys are missing. */
function* unlit(stages: Scenario['stages']) {
  const missing = unlitStages(stages);
  if (missing.length > 0) {
    yield `The least kWh must not be asked for while it is not known what the lamps of every stage draw. Missing: ${missing.join(', ')}. Example: ppfd: 200, hours: 16, efficacy: 2.6, hole_area_cm2: 100; where it is dark, ppfd: 0`;
  }
}

/** Stages of which it is not told what their lamps draw, with the keys that would tell. */
function unlitStages(stages: Scenario['stages']): string[] {
  return stages.flatMap(({ name, ppfd, hours, watts, efficacy }, s) => {
    const at = `${name} (stages[${s}])`;
    if (ppfd === undefined) return [`${at} ppfd, hours, and watts or efficacy`];
    const dark = ppfd === 0 || hours === 0;
    return dark || watts !== undefined || efficacy !== undefined ? [] : [`${at} watts or efficacy`];
  });
}

/** Of the cost: what has no price, or has one while it is not told how much of it there is. */
function* unpriced(stages: Scenario['stages'], { plan }: Candidate) {
  const prices = plan.physical?.prices ?? null;
  const costs = costsTold(plan);
  if (prices === null || costs === null || !hasCosts(prices)) {
    yield 'The least cost must not be asked for without prices. Say what there is to pay for. Example: prices: {kwh: 0.3, seed: 0.03, hour: 15, hole_day: 0.004}';
    return;
  }
  const unlit = unlitStages(stages);
  const unknown = [
    ...(prices.kwh !== null && unlit.length > 0 ? [`prices.kwh: ${unlit.join(', ')}`] : []),
    ...((prices.waterM3 !== null && costs.water === null) ||
    (prices.nutrientsL !== null && costs.nutrients === null)
      ? [
          'prices.water_m3 and nutrients_l: what plants use (climate with air_c and humidity, head_g of every crop, hole_area_cm2 of every stage, ppfd and hours; with a tank, visits on days)',
        ]
      : []),
    ...(prices.hour !== null && costs.labour === null ? ['prices.hour: work, and visits on days'] : []),
  ];
  if (unknown.length > 0) {
    yield `The least cost must not be asked for while there are prices of what is not known. Missing for ${unknown.join('; for ')}. Fill that in, or leave these prices out.`;
  }
}

/** Is there a price of anything that has to be paid for? */
function hasCosts({ crops, ...prices }: Prices): boolean {
  return [...Object.values(prices), ...crops.map(({ seed }) => seed)].some((price) => price !== null);
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
