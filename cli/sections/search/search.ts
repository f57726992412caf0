/** A search in a grower's words: the plan to use, how sure that is, what comes next to it, and what it took to find out. */

import type { Cost, CostKind } from '../../../sim/study/search/candidates.js';
import type { FoundPlan, SearchResult } from '../../../sim/study/search/result.js';
import {
  COUNT,
  counted,
  countText,
  figureText,
  fixed,
  intervalText,
  listed,
  orFewer,
  percentText,
  SHARE,
  thousands,
} from '../../words/numbers.js';
import { weeksFrom } from '../season.js';
import { type Block, figure, interval, type Section, section, table } from '../section.js';
import { inTheWay, takenAway } from './obstacles.js';
import { yieldAgainstSteadiness } from './picture.js';
import { limitsText, planLines } from './words.js';

const MONEY = fixed(2);
const NO_ENDS = { low: null, high: null };
/** So few plans make no picture. */
const FEW = 2;
/** From so many times as many seasons on it is said what the full grid takes. */
const WORTH_SAYING = 1.5;

const LEAST_WORDS: Readonly<Record<CostKind, string>> = {
  holes: 'the fewest holes',
  seeds: 'the fewest seeds',
  light: 'the least area under lamps',
  kwh: 'the fewest kWh of the lamps',
  cost: 'the cheapest season',
};

/** @param asked `around`: whether the limits were laid around the scenario because nobody gave any */
export function searchSections(result: SearchResult, { around }: { readonly around: boolean }): Section[] {
  const { best, runners_up: runners, plans, assumes = [] } = result;
  return [
    section(null, ...heading(result, around)),
    best === null
      ? nothing(result)
      : section('The plan to use, as lines of the scenario file', ...whatItGives(result, best)),
    section('How sure that is', ...howSure(result), ...assumes),
    ...(best !== null && runners.length > 0 ? [runnersUp(best, runners)] : []),
    ...(plans.length > FEW && plans.some(({ steadiness }) => steadiness > 0)
      ? [yieldAgainstSteadiness(result)]
      : []),
    section('What it took to find out', seasons(result)),
  ];
}

function heading(
  { title, goal, least, candidates, within, seed, partial, plans }: SearchResult,
  around: boolean,
): string[] {
  const given = around ? 'Limits (none were given; these lie around the scenario)' : 'Limits';
  const stopped = partial
    ? ` Stopped early, when ${thousands(plans.length)} of them had had their first seasons.`
    : '';
  return [
    `${title}: sought is the plan with ${LEAST_WORDS[least]} that brings at least ${counted(goal.heads, 'head')} in ${chosenShare(goal.weeks_met)} of the weeks, among ${counted(candidates, 'plan')} with the same luck (seed ${seed}).${stopped}`,
    `${given}: ${limitsText(within)}.`,
  ];
}

function whatItGives({ goal }: SearchResult, plan: FoundPlan): Block[] {
  const {
    settings,
    cost,
    weeks_met: met,
    heads_a_week: heads,
    bad_week: bad,
    without_absence: present,
  } = plan;
  const there =
    present === null
      ? ''
      : `, ${countText(present.bad_week)}${orFewer(present.bad_week)} if nobody were away`;
  return [
    planLines(settings),
    `It takes ${costText(cost)}.`,
    ...costOfHead(plan),
    `It brings at least ${counted(goal.heads, 'head')} in ${percentText(met.mean)} of the weeks (${intervalText(known(met), SHARE)}; 95 % interval); ${countText(heads)} a week on average; ${countText(bad)}${orFewer(bad)} in a bad week (1 in 10)${there}.`,
  ];
}

function nothing(result: SearchResult): Section {
  const { partial, nearest, obstacles } = result;
  return section(
    null,
    partial
      ? 'No plan that meets the goal was found by then.'
      : `No plan within these limits meets the goal. ${obstacles === null ? '' : inTheWay(obstacles)}`,
    ...(nearest === null
      ? []
      : [
          section(
            `${partial ? 'The most good weeks so far' : 'Nearest comes'}, as lines of the scenario file`,
            ...whatItGives(result, nearest),
          ),
        ]),
    ...(obstacles === null ? [] : [takenAway(obstacles)]),
  );
}

function howSure({
  partial,
  confidence,
  near,
  goal,
  best,
  same_cost: same,
  counted: span,
  least,
}: SearchResult): string[] {
  const weeks = `Counted ${span.weeks === 1 ? 'is' : 'are'} ${weeksFrom(span)}, in which all plans have settled.`;
  if (partial) {
    return [
      `Not sure: the search was stopped, and ${best === null ? 'some' : 'a cheaper'} plan may meet the goal.`,
      weeks,
    ];
  }
  const sure = `With a probability of at least ${chosenShare(confidence)}`;
  const claim =
    best === null
      ? `${sure} none of these plans meets the goal.`
      : `${sure} this plan meets the goal and none that is cheaper${least === 'cost' ? ' in a season without luck' : ''} does.`;
  const between = `Plans that bring the heads in ${chosenShare(Math.max(0, goal.weeks_met - near))} to ${chosenShare(Math.min(1, goal.weeks_met + near))} of the weeks may count either way.`;
  const equals =
    best !== null && same > 1
      ? ` ${same} plans that meet it cost exactly the same; of them this one meets it in the most weeks, or in at most ${chosenShare(near)} of the weeks fewer than the best.`
      : '';
  return [`${claim} ${between}${equals}`, weeks];
}

function runnersUp(best: FoundPlan, runners: readonly FoundPlan[]): Section {
  const found = [best, ...runners];
  const kwh = found.some(({ cost }) => cost.kwh != null);
  const money = found.some(({ cost_a_head: head }) => head != null);
  return section(
    'The next cheapest plans that meet the goal (* the plan to use)',
    table(
      found.map(({ cost, weeks_met: met, heads_a_week: heads, bad_week: bad, cost_a_head: head }, i) => [
        i === 0 ? '*' : `${i}`,
        figure(cost.holes, fixed(0)),
        figure(cost.seeds_a_week, COUNT),
        ...(kwh ? [figure(cost.kwh, COUNT)] : []),
        figure(met.mean, SHARE),
        interval(known(met), SHARE),
        figure(heads, COUNT),
        figure(bad, COUNT),
        ...(money ? [figure(head?.mean, MONEY), interval(head ?? NO_ENDS, MONEY)] : []),
      ]),
      {
        head: [
          '',
          'holes',
          'seeds\na week',
          ...(kwh ? ['kWh a\nseason'] : []),
          'weeks\nmet',
          '95 %\ninterval',
          'heads\na week',
          'bad\nweek',
          ...(money ? ['cost\na head', '95 %\ninterval'] : []),
        ],
      },
    ),
    ...runners.map(({ name }, i) => `${i + 1}: ${name}`),
    ...cheaperHeads(best, runners),
  );
}

/** The cheapest season need not have the cheapest heads: a plan that brings more may. */
function cheaperHeads({ cost_a_head: ours }: FoundPlan, runners: readonly FoundPlan[]): string[] {
  const cheaper = runners.flatMap(({ cost_a_head: head }, i) =>
    (head?.high ?? Infinity) < (ours?.low ?? -Infinity) ? [`${i + 1}`] : [],
  );
  return cheaper.length === 0
    ? []
    : [`The season of the plan to use costs least; a head costs less in ${listed(cheaper)}.`];
}

function seasons({ seasons: { used, full_grid: grid, ratio }, first, plans }: SearchResult): string {
  const more = used > first * plans.length ? ', and more where the goal was near' : '';
  const took = `${counted(used, 'season')}: ${first} of each of ${counted(plans.length, 'plan')}${more}.`;
  return ratio < WORTH_SAYING
    ? took
    : `${took} Judging every plan without looking before the end would take ${thousands(grid)} for the same sureness, ${ratio.toFixed(1)} times as many.`;
}

function costText({ holes, seeds_a_week: seeds, lit_m2: area, visits_a_week: visits, kwh }: Cost): string {
  return listed([
    counted(holes, 'hole'),
    ...(area === null ? [] : [`${countText(area)} m2 under lamps`]),
    ...(seeds === null ? [] : [`${counted(seeds, 'seed')} a week`]),
    ...(visits === null ? [] : [`${counted(visits, 'visit')} a week`]),
    ...(kwh == null ? [] : [`${countText(kwh)} kWh a season`]),
  ]);
}

/** What a season without luck costs, and what a head does with luck: told where plans are ordered by it. */
function costOfHead({ cost, cost_a_head: head }: FoundPlan): string[] {
  if (cost.luckless_season == null) return [];
  const season = `A season without luck costs ${figureText(cost.luckless_season, MONEY)}.`;
  if (head == null) return [season];
  const { mean, low, high } = head;
  const range =
    low === null || high === null ? '' : ` (${intervalText({ low, high }, MONEY)}; 95 % interval)`;
  return [`${season} With luck a head costs ${figureText(mean, MONEY)}${range}, over whole seasons.`];
}

/** A share that somebody chose: without decimals that are none. */
function chosenShare(share: number): string {
  return `${Number((100 * share).toFixed(2))} %`;
}

/** Where a share may lie, if its seasons do not tell. */
function known({ low, high }: FoundPlan['weeks_met']): { readonly low: number; readonly high: number } {
  return { low: low ?? 0, high: high ?? 1 };
}
