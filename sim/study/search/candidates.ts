/** The plans among which a search chooses: what each costs, and the order in which they are looked at. */

import { holesOf, holesOfLine, type Plan } from '../../models/plan.js';
import { lucklessCost, seasonKwh } from './season-costs.js';

/** What is chosen, by the keys of the scenario file. What is left out is as in the scenario. */
export interface Settings {
  readonly every?: number;
  readonly on?: readonly string[];
  readonly seeds?: number;
  /** Channels by the name of the stage. */
  readonly channels?: Readonly<Record<string, number>>;
  readonly visits?: string | readonly string[];
}

export interface Candidate {
  /** In a few words. */
  readonly name: string;
  readonly settings: Settings;
  readonly plan: Plan;
  /** Seeds that fall due in a week; null if that depends on the season. All candidates or none have it. */
  readonly seedsAWeek: number | null;
  /** Visits in a week; null if somebody is always there. All candidates or none have it. */
  readonly visitsAWeek: number | null;
}

/** What a plan takes. */
export interface Cost {
  readonly holes: number;
  /** Seeds that fall due in a week; null if that depends on the season. */
  readonly seeds_a_week: number | null;
  /**
   * Area under lamps [m2]; null unless the area of a hole is known in every stage. Lamps burn whether a hole is full or not,
   * so light goes by this area.
   */
  readonly lit_m2: number | null;
  /** null if somebody is always there. */
  readonly visits_a_week: number | null;
  /** What the lamps draw in a season [kWh], full holes or empty ones; only there if that is to be least. */
  readonly kwh?: number | null;
  /** What a season without luck costs (models/luckless.ts), in the grower's own money; only there if that is to be least. */
  readonly luckless_season?: number | null;
}

/** What a search can be asked to spend least of. */
export const COST_KINDS = ['holes', 'seeds', 'light', 'kwh', 'cost'] as const;
export type CostKind = (typeof COST_KINDS)[number];

/** @param least what is to be spent least of: what is worked out for that alone is told only then */
export function costOf({ plan, seedsAWeek, visitsAWeek }: Candidate, least: CostKind = 'holes'): Cost {
  const areas = plan.stages.map((stage) => stage.holeAreaCm2);
  return {
    holes: holesOfLine(plan),
    seeds_a_week: known(seedsAWeek),
    lit_m2: areas.includes(null)
      ? null
      : rounded(plan.stages.reduce((sum, stage, s) => sum + (holesOf(stage) * areas[s]!) / 10_000, 0)),
    visits_a_week: visitsAWeek,
    ...(least === 'kwh' && { kwh: known(seasonKwh(plan)) }),
    ...(least === 'cost' && { luckless_season: known(lucklessCost(plan)) }),
  };
}

function known(value: number | null): number | null {
  return value === null ? null : rounded(value);
}

/** To 12 digits: what is equal but for rounding is equal. */
function rounded(value: number): number {
  return Number(value.toPrecision(12));
}

/** A candidate at its place in the order of costs. */
export interface RankedCandidate {
  readonly candidate: Candidate;
  readonly cost: Cost;
  /** Number of its price from 0: plans of one price take exactly the same of everything. */
  readonly price: number;
}

/**
 * The candidates, the cheapest first. Equal costs of the chosen kind are told apart by the others: holes, seeds, light, visits. Plans
 * that cost the same in all of them stay in the order in which they came.
 * @throws RangeError if a candidate has no cost of the chosen kind
 */
export function rank(candidates: readonly Candidate[], least: CostKind): RankedCandidate[] {
  const costsOf = candidates.map((candidate) => costOf(candidate, least));
  const costs = costsOf.map((cost) => pricesOf(cost, least));
  if (costs.some(([chosen]) => chosen === null))
    throw new RangeError(`what the candidates cost in ${least} is not known`);
  const order = candidates.map((_, i) => i).sort((a, b) => compare(costs[a]!, costs[b]!) || a - b);
  let price = 0;
  return order.map((i, place) => {
    if (place > 0 && compare(costs[order[place - 1]!]!, costs[i]!) !== 0) price++;
    return { candidate: candidates[i]!, cost: costsOf[i]!, price };
  });
}

/** How many plans have each price. */
export function priceSizes(ranked: readonly RankedCandidate[]): number[] {
  const sizes: number[] = [];
  for (const { price } of ranked) sizes[price] = (sizes[price] ?? 0) + 1;
  return sizes;
}

/** The costs in the order in which they decide. */
function pricesOf(cost: Cost, least: CostKind): (number | null)[] {
  const { holes, seeds_a_week: seeds, lit_m2: light, visits_a_week: visits } = cost;
  const { kwh = null, luckless_season: season = null } = cost;
  return [{ holes, seeds, light, kwh, cost: season }[least], holes, seeds, light, visits];
}

/** Below 0 if `a` is cheaper. What is not known of one is not known of any, and decides nothing. */
function compare(a: readonly (number | null)[], b: readonly (number | null)[]): number {
  for (const [i, cost] of a.entries()) {
    const difference = (cost ?? 0) - (b[i] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}
