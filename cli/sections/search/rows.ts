/** A search as rows of CSV: one for each plan, the cheapest first. */

import type { SearchResult } from '../../../sim/study/search/result.js';
import type { Rows } from '../section.js';
import { daysText } from './words.js';

const COST = ['holes', 'seeds_a_week', 'lit_m2', 'visits_a_week'] as const;
const FIGURES = ['weeks_met', 'heads_a_week', 'bad_week', 'steadiness'] as const;

export function searchRows({ plans, best, runners_up: runners, frontier }: SearchResult): Rows {
  const stages = [...new Set(plans.flatMap(({ settings }) => Object.keys(settings.channels ?? {})))];
  const channels = stages.map((stage) => `channels ${stage}`);
  const role = (place: number): string => {
    if (place === best?.place) return 'best';
    const runner = runners.findIndex((plan) => plan.place === place);
    return runner < 0 ? '' : `runner-up ${runner + 1}`;
  };
  return [
    [
      ...['place', 'plan', 'every', 'on', 'seeds', 'visits', ...channels, ...COST],
      ...['verdict', 'seasons', 'role', 'frontier', ...FIGURES],
    ],
    ...plans.map(({ place, name, settings: { every, on, seeds, visits, ...chosen }, ...plan }) => [
      ...[place, name, every ?? null, daysText(on), seeds ?? null, daysText(visits)],
      ...stages.map((stage) => chosen.channels?.[stage] ?? null),
      ...COST.map((cost) => plan.cost[cost]),
      ...[plan.verdict, plan.seasons, role(place), frontier.includes(place) ? 'yes' : 'no'],
      ...FIGURES.map((figure) => plan[figure]),
    ]),
  ];
}
