/** A search in a grower's words: the plan to use, how sure that is, what comes next to it, and what it took to find out. */

import type { Cost, Least } from '../../sim/study/search/candidates.js';
import type { FoundPlan, SearchResult } from '../../sim/study/search/result.js';
import { dateText } from '../words/dates.js';
import { counted, countText, percentText, thousands } from '../words/numbers.js';
import { columns, WIDTH, wrap } from './format.js';
import { yieldAgainstSteadiness } from './search-picture.js';
import { limitsText, planLines } from './search-words.js';

const INDENT = '  ';

/** So few plans make no picture. */
const FEW = 2;
/** From here on it is said how many times as many seasons the full grid takes. */
const WORTH_SAYING = 1.5;

const LEAST_WORDS: Readonly<Record<Least, string>> = {
  holes: 'the fewest holes',
  seeds: 'the fewest seeds',
  light: 'the least area under lamps',
};

/** @param asked `around`: whether the limits were laid around the scenario because nobody gave any */
export function searchText(result: SearchResult, { around }: { readonly around: boolean }): string {
  const parts = [
    heading(result, around),
    result.best === null ? nothing(result) : toUse(result, result.best),
    howSure(result),
    ...(result.runners_up.length > 0 ? [runnersUp(result)] : []),
    ...(result.plans.length > FEW ? [yieldAgainstSteadiness(result)] : []),
    seasons(result),
  ];
  return `${parts.join('\n\n')}\n`;
}

function heading(
  { title, goal, least, candidates, within, seed, partial, plans }: SearchResult,
  around: boolean,
): string {
  const given = around ? 'Limits (none were given; these lie around the scenario)' : 'Limits';
  const stopped = partial
    ? ` Stopped early, when ${thousands(plans.length)} of them had had their first seasons.`
    : '';
  return [
    wrap(
      `${title}: sought is the plan with ${LEAST_WORDS[least]} that brings at least ${counted(goal.heads, 'head')} in ${shareText(goal.weeks_met)} of the weeks, among ${plansText(candidates)} with the same luck (seed ${seed}).${stopped}`,
      WIDTH,
    ),
    wrap(`${given}: ${limitsText(within)}.`, WIDTH),
  ].join('\n');
}

function toUse(result: SearchResult, best: FoundPlan): string {
  return [
    'The plan to use, as lines of the scenario file',
    ...planLines(best.settings).map((line) => `${INDENT}${line}`),
    ...whatItGives(result, best),
  ].join('\n');
}

function whatItGives(
  { goal }: SearchResult,
  { cost, weeks_met: met, heads_a_week: heads, bad_week: bad }: FoundPlan,
): string[] {
  return [
    wrap(`It takes ${costText(cost)}.`, WIDTH, INDENT),
    wrap(
      `It brings at least ${counted(goal.heads, 'head')} in ${percentText(met.mean)} of the weeks (${intervalText(met)}; 95 % interval); ${countText(heads)} a week on average; ${countText(bad)} or fewer in a bad week (1 in 10).`,
      WIDTH,
      INDENT,
    ),
  ];
}

function nothing(result: SearchResult): string {
  const lines = [
    wrap(
      result.partial
        ? 'No plan that meets the goal was found by then.'
        : 'No plan within these limits meets the goal. Widen the limits (--channels, --seeds, --visits), or ask for fewer heads or a smaller share of the weeks.',
      WIDTH,
    ),
  ];
  if (result.nearest !== null) {
    lines.push(
      `${result.partial ? 'The most good weeks so far' : 'Nearest comes'}, as lines of the scenario file`,
      ...planLines(result.nearest.settings).map((line) => `${INDENT}${line}`),
      ...whatItGives(result, result.nearest),
    );
  }
  return lines.join('\n');
}

function howSure({
  partial,
  confidence,
  near,
  goal,
  best,
  same_cost: same,
  counted: span,
}: SearchResult): string {
  const sure = `With a probability of at least ${shareText(confidence)}`;
  const claim =
    best === null
      ? `${sure} none of these plans meets the goal.`
      : `${sure} this plan meets the goal and none that is cheaper does.`;
  const between = `Plans that bring the heads in ${shareText(Math.max(0, goal.weeks_met - near))} to ${shareText(Math.min(1, goal.weeks_met + near))} of the weeks may count either way.`;
  const equals =
    best !== null && same > 1
      ? ` ${same} plans that meet it cost exactly the same; of them this one meets it in the most weeks, or in at most ${shareText(near)} of the weeks fewer than the best.`
      : '';
  return [
    'How sure that is',
    wrap(
      partial
        ? `Not sure: the search was stopped, and ${best === null ? 'some' : 'a cheaper'} plan may meet the goal.`
        : `${claim} ${between}${equals}`,
      WIDTH,
      INDENT,
    ),
    wrap(
      `${span.weeks === 1 ? 'Counted is the last week' : `Counted are the ${span.weeks} weeks from ${dateText(span.from)} on`}, in which all plans have settled.`,
      WIDTH,
      INDENT,
    ),
  ].join('\n');
}

function runnersUp({ best, runners_up: runners }: SearchResult): string {
  const rows = [best!, ...runners].map(({ cost, weeks_met: met, heads_a_week: heads, bad_week: bad }, i) => [
    i === 0 ? '*' : `${i}`,
    thousands(cost.holes),
    cost.seeds_a_week === null ? '-' : countText(cost.seeds_a_week),
    percentText(met.mean),
    intervalText(met),
    countText(heads),
    countText(bad),
  ]);
  return [
    'The next cheapest plans that meet the goal (* the plan to use)',
    ...columns([
      ['', '', 'seeds', 'weeks', '95 %', 'heads', 'bad'],
      ['', 'holes', 'a week', 'met', 'interval', 'a week', 'week'],
      ...rows,
    ]).map((line) => `${INDENT}${line}`),
    ...runners.map(({ name }, i) => `${INDENT}${wrap(`${i + 1}: ${name}`, WIDTH - 2, '   ').trimStart()}`),
  ].join('\n');
}

function seasons({ seasons: { used, full_grid: grid, ratio }, first, plans }: SearchResult): string {
  const times = ratio >= WORTH_SAYING ? `, ${ratio.toFixed(1)} times as many` : '';
  return [
    'What it took to find out',
    wrap(
      `${thousands(used)} seasons: ${first} of each of ${plansText(plans.length)}, and more where the goal was near. Judging every plan without looking before the end would take ${thousands(grid)} for the same sureness${times}.`,
      WIDTH,
      INDENT,
    ),
  ].join('\n');
}

function plansText(count: number): string {
  return count === 1 ? '1 plan' : `${thousands(count)} plans`;
}

function costText({ holes, seeds_a_week: seeds, lit_m2: area, visits_a_week: visits }: Cost): string {
  const parts = [`${thousands(holes)} ${holes === 1 ? 'hole' : 'holes'}`];
  if (area !== null) parts.push(`${countText(area)} m2 under lamps`);
  if (seeds !== null) parts.push(`${countText(seeds)} ${seeds === 1 ? 'seed' : 'seeds'} a week`);
  if (visits !== null) parts.push(`${visits} ${visits === 1 ? 'visit' : 'visits'} a week`);
  return parts.length === 1 ? parts[0]! : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}

/** A share that somebody chose: without decimals that are none. */
function shareText(share: number): string {
  return `${Number((100 * share).toFixed(2))} %`;
}

function intervalText({ low, high }: FoundPlan['weeks_met']): string {
  return `${(100 * (low ?? 0)).toFixed(1)} to ${(100 * (high ?? 1)).toFixed(1)} %`;
}
