/** The plans of a search as a picture: heads a week against steadiness. */

import type { SearchResult } from '../../sim/study/search/result.js';
import { countText, percentText } from '../words/numbers.js';
import { WIDTH, wrap } from './format.js';
import { plane } from './pictures.js';

const INDENT = '  ';
const COLUMNS = 60;
const ROWS = 10;
/** Most plans of the frontier that are named. */
const NAMED = 6;

export function yieldAgainstSteadiness({
  plans,
  first,
  frontier,
  best,
  runners_up: runners,
}: SearchResult): string {
  const at = (place: number, sign: string) => {
    const { heads_a_week: x, steadiness: y } = plans.find((plan) => plan.place === place)!;
    return { x, y, sign };
  };
  const marks = [
    ...plans.map(({ place }) => at(place, '.')),
    ...frontier.map((place) => at(place, 'o')),
    ...runners.map(({ place }, i) => at(place, `${i + 1}`)).reverse(),
    ...(best === null ? [] : [at(best.place, '*')]),
  ];
  const steady = plans.map(({ steadiness }) => steadiness);
  const heads = plans.map((plan) => plan.heads_a_week);
  const bottom = Math.min(...steady);
  const labels = [percentText(Math.max(...steady)), percentText(bottom)] as const;
  const margin = Math.max(...labels.map((label) => label.length));
  const rows = plane(marks, { width: COLUMNS, height: ROWS, bottom }).map((row, i) => {
    const label = i === 0 ? labels[0] : i === ROWS - 1 ? labels[1] : '';
    return `${INDENT}${label.padStart(margin)} |${row}`;
  });
  const [least, most] = [countText(Math.min(...heads)), countText(Math.max(...heads))];
  const middle = 'heads a week (mean)';
  const space = COLUMNS - least.length - most.length;
  const foot = `${least}${middle.padStart(Math.floor((space + middle.length) / 2)).padEnd(space)}${most}`;
  const named = frontier.slice(0, NAMED).map((place) => {
    const { name, heads_a_week: mean, bad_week: bad, cost } = plans.find((plan) => plan.place === place)!;
    const words = `o ${name}: ${countText(mean)} heads, bad week ${countText(bad)}; ${cost.holes} holes`;
    return `${INDENT}${wrap(words, WIDTH - INDENT.length, INDENT).trimStart()}`;
  });
  if (frontier.length > NAMED) named.push(`${INDENT}and ${frontier.length - NAMED} more: see --csv`);
  return [
    wrap(
      `Yield against steadiness: a bad week as a share of the mean week (${first} seasons of each plan, so rough)`,
      WIDTH,
    ),
    ...rows,
    `${INDENT}${' '.repeat(margin)} +${'-'.repeat(COLUMNS)}`,
    `${INDENT}${' '.repeat(margin)}  ${foot}`.trimEnd(),
    wrap(
      '. a plan  o no other plan brings more and is steadier  * the plan to use  1, 2, ... the next cheapest',
      WIDTH,
      INDENT,
    ),
    ...named,
  ].join('\n');
}
