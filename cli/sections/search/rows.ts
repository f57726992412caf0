/** A search as rows of CSV: one for each plan, the cheapest first. */

import type { SearchResult } from '../../../sim/study/search/result.js';
import { estimateCells, type Rows } from '../section.js';
import { daysText } from './words.js';

const COST = ['holes', 'seeds_a_week', 'lit_m2', 'visits_a_week'] as const;
/** Only there where they are to be least. */
const COST_IF_TOLD = ['kwh', 'luckless_season'] as const;
const FIGURES = ['weeks_met', 'heads_a_week', 'bad_week', 'steadiness'] as const;

export function searchRows(result: SearchResult): Rows {
  const { plans, best, runners_up: runners, frontier, assumes = [] } = result;
  const costs = [
    ...COST,
    ...COST_IF_TOLD.filter((cost) => plans.some((plan) => plan.cost[cost] !== undefined)),
  ];
  const found = [best, ...runners, result.nearest].filter((plan) => plan !== null);
  const aHead =
    result.least === 'cost' ? (['cost_a_head', 'cost_a_head_low', 'cost_a_head_high'] as const) : [];
  const stages = [...new Set(plans.flatMap(({ settings }) => Object.keys(settings.channels ?? {})))];
  const channels = stages.map((stage) => `channels ${stage}`);
  const role = (place: number): string => {
    if (place === best?.place) return 'best';
    const runner = runners.findIndex((plan) => plan.place === place);
    return runner < 0 ? '' : `runner-up ${runner + 1}`;
  };
  const head = [
    ...['place', 'plan', 'every', 'on', 'seeds', 'visits', ...channels, ...costs],
    ...['verdict', 'seasons', 'role', 'frontier', ...FIGURES, ...aHead],
  ];
  return [
    head,
    ...plans.map(({ place, name, settings: { every, on, seeds, visits, ...chosen }, ...plan }) => [
      ...[place, name, every ?? null, daysText(on), seeds ?? null, daysText(visits)],
      ...stages.map((stage) => chosen.channels?.[stage] ?? null),
      ...costs.map((cost) => plan.cost[cost] ?? null),
      ...[plan.verdict, plan.seasons, role(place), frontier.includes(place) ? 'yes' : 'no'],
      ...FIGURES.map((figure) => plan[figure]),
      ...(aHead.length === 0 ? [] : estimateCells(found.find((one) => one.place === place)?.cost_a_head)),
    ]),
    // Cautions go wherever the figures go.
    ...assumes.map((sentence): Rows[number] => [
      null,
      `assumes: ${sentence}`,
      ...head.slice(2).map(() => null),
    ]),
  ];
}
