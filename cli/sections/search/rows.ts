/** A search as rows of CSV: one for each plan, the cheapest first. */

import type { SearchResult } from '../../../sim/study/search/result.js';
import type { Rows } from '../section.js';
import { daysText } from './words.js';

export function searchRows(result: SearchResult): Rows {
  const { best, runners_up: runners, frontier } = result;
  const stages = [...new Set(result.plans.flatMap(({ settings }) => Object.keys(settings.channels ?? {})))];
  const role = (place: number): string => {
    if (place === best?.place) return 'best';
    const runner = runners.findIndex((plan) => plan.place === place);
    return runner < 0 ? '' : `runner-up ${runner + 1}`;
  };
  const header = [
    'place',
    'plan',
    'every',
    'on',
    'seeds',
    'visits',
    ...stages.map((stage) => `channels ${stage}`),
    'holes',
    'seeds_a_week',
    'lit_m2',
    'visits_a_week',
    'verdict',
    'seasons',
    'role',
    'frontier',
    'weeks_met',
    'heads_a_week',
    'bad_week',
    'steadiness',
  ];
  const rows = result.plans.map(({ place, name, settings, cost, ...plan }) => [
    place,
    name,
    settings.every ?? null,
    settings.on === undefined ? null : daysText(settings.on),
    settings.seeds ?? null,
    settings.visits === undefined ? null : daysText(settings.visits),
    ...stages.map((stage) => settings.channels?.[stage] ?? null),
    cost.holes,
    cost.seeds_a_week,
    cost.lit_m2,
    cost.visits_a_week,
    plan.verdict,
    plan.seasons,
    role(place),
    frontier.includes(place) ? 'yes' : 'no',
    plan.weeks_met,
    plan.heads_a_week,
    plan.bad_week,
    plan.steadiness,
  ]);
  return [header, ...rows];
}
