/** The plans of a search as a picture: heads a week against steadiness. */

import type { SearchedPlan, SearchResult } from '../../../sim/study/search/result.js';
import { COUNT, counted, countText, SHARE } from '../../words/numbers.js';
import { key, plane, type Section, section } from '../section.js';

/** Most plans of the frontier that are named. */
const NAMED = 6;

export function yieldAgainstSteadiness(result: SearchResult): Section {
  const { plans, first, frontier, best, runners_up: runners } = result;
  const planAt = (place: number): SearchedPlan => plans.find((plan) => plan.place === place)!;
  const mark = (place: number, sign: string) => {
    const { heads_a_week: x, steadiness: y } = planAt(place);
    return { x, y, sign };
  };
  const marks = [
    ...plans.map(({ place }) => mark(place, '.')),
    ...frontier.map((place) => mark(place, 'o')),
    ...runners.map(({ place }, i) => mark(place, `${i + 1}`)).reverse(),
    ...(best === null ? [] : [mark(best.place, '*')]),
  ];
  const named = frontier.slice(0, NAMED).map((place) => {
    const { name, heads_a_week: mean, bad_week: bad, cost } = planAt(place);
    return `o ${name}: ${counted(mean, 'head')}, bad week ${countText(bad)}; ${counted(cost.holes, 'hole')}`;
  });
  return section(
    `Yield against steadiness: a bad week as a share of the mean week (${counted(first, 'season')} of each plan, so rough)`,
    plane(marks, { form: COUNT, label: 'heads a week (mean)' }, { form: SHARE, label: '' }),
    key(
      ['.', 'a plan'],
      ['o', 'no other plan brings more and is steadier'],
      ['*', 'the plan to use'],
      ['1, 2, ...', 'the next cheapest'],
    ),
    ...named,
    ...(frontier.length > NAMED ? [`and ${frontier.length - NAMED} more: see --csv`] : []),
  );
}
