/** `evensow search [FILE]`: the cheapest plan that reaches so many heads a week in a given share of the weeks. */

import { SEARCH_DEFAULTS, SEARCH_LIMITS } from '../../sim/calls/search.js';
import { HEADS, type Limits, SEEDS } from '../../sim/models/limits.js';
import { nearest } from '../../sim/models/nearest.js';
import * as route from '../../sim/models/route.js';
import { type Grid, gridAround, gridSize } from '../../sim/scenario/grid.js';
import type { SearchGoal } from '../../sim/study/search/budget.js';
import { COST_KINDS, type CostKind } from '../../sim/study/search/candidates.js';
import { loadScenario, scenarioInput } from '../inputs/scenario-file.js';
import { cadenceLists, numberFrom, oneOf, weekdayLists, wholeList } from '../options/lists.js';
import {
  checkOut,
  type ExecutionOptions,
  type Options,
  sharingFaults,
  studyOptions,
  wholeNumber,
  wrong,
} from '../options/options.js';
import { channelLists } from '../options/stage-lists.js';
import { VISIT_WORDS } from '../options/words.js';
import { Problem } from '../problem.js';
import { MOST_SEARCHED, type SearchAssignment } from '../studies/assignment.js';
import { carryOutStudy } from '../studies/perform.js';

/** Options that may be given several times come as lists. */
export type SearchOptions = Omit<Options, 'channels'> & { readonly channels?: readonly string[] };

export async function searchCommand(file: string | undefined, options: SearchOptions): Promise<number> {
  const faults: string[] = [];
  const { seed, execution } = studyOptions(options as Options, faults);
  const goal = goalOf(options, faults);
  const given = gridOf(options, faults);
  faults.push(...gridFaults(given));
  if (goal === null || faults.length > 0) throw new Problem(faults.join('\n'));

  await checkOut(execution.out, [scenarioInput(file)]);
  const { plan, scenario, source } = await loadScenario(file, 'optional');
  const names = plan.stages.map(({ name }) => name);
  for (const { stage } of given.channels) {
    if (names.includes(stage)) continue;
    const near = nearest(stage, names);
    const advice =
      near === null ? `Example: --channels ${names[route.last(plan)]}=4..8` : `Did you mean ${near}?`;
    faults.push(
      `--channels must not name ${JSON.stringify(stage)}: there is no such stage. The stages are ${names.join(', ')}. ${advice}`,
    );
  }
  const around = isEmpty(given);
  const grid = around ? gridAround(scenario) : given;
  faults.push(...gridFaults(grid), ...shardFaults(gridSize(grid), execution));
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  const { first: seasons, ...rest } = goal;
  const asked: SearchAssignment = {
    command: 'search',
    sources: [source],
    seed: seed ?? plan.seed,
    seasons,
    ...rest,
    grid,
    around,
  };
  return carryOutStudy(asked, execution);
}

/** @returns null if something is wrong with it */
function goalOf(options: SearchOptions, faults: string[]): SearchGoal | null {
  if (options['heads'] === undefined) {
    faults.push(
      '--heads must be given. It says how many heads a week are the goal. Example: --heads 12 --weeks-met 0.9',
    );
  }
  const before = faults.length;
  const heads = wholeNumber('--heads', options['heads'], HEADS, 12, faults);
  const usual = SEARCH_DEFAULTS;
  const goal = {
    weeksMet: share('--weeks-met', options['weeksMet'], SEARCH_LIMITS.weeksMet, usual.weeksMet, faults),
    least: (oneOf('--least', options['least'], COST_KINDS, faults) as CostKind | null) ?? usual.least,
    confidence: share(
      '--confidence',
      options['confidence'],
      SEARCH_LIMITS.confidence,
      usual.confidence,
      faults,
    ),
    near: share('--near', options['near'], SEARCH_LIMITS.near, usual.near, faults),
    first: wholeNumber('--first', options['first'], SEARCH_LIMITS.first, usual.first, faults) ?? usual.first,
    runners:
      wholeNumber('--runners', options['runners'], SEARCH_LIMITS.runners, usual.runners, faults) ??
      usual.runners,
  };
  return heads === undefined || faults.length > before ? null : { heads, ...goal };
}

/** @returns what is usual if it was left out or is wrong */
function share(
  name: string,
  text: string | undefined,
  limits: Limits,
  usual: number,
  faults: string[],
): number {
  if (text === undefined) return usual;
  const value = numberFrom(text, limits);
  if (value === undefined)
    faults.push(wrong(name, text, `a share from ${limits.least} to ${limits.most}`, usual));
  return value ?? usual;
}

/** What the limits are; empty lists where none was given. */
function gridOf(options: SearchOptions, faults: string[]): Grid {
  return {
    cadences: cadenceLists(options['every'], options['on'], faults),
    seeds: wholeList('--seeds', options['seeds'], SEEDS, '4..12', faults),
    channels: channelLists(options.channels, faults),
    visits: weekdayLists('--visits', options['visits'], VISIT_WORDS.search, faults) as Grid['visits'],
  };
}

function isEmpty({ cadences, seeds, channels, visits }: Grid): boolean {
  return cadences.length + seeds.length + channels.length + visits.length === 0;
}

function gridFaults(grid: Grid): string[] {
  const plans = gridSize(grid);
  if (plans <= MOST_SEARCHED) return [];
  return [
    `The limits must not leave ${plans} plans: each gets its first seasons. At most ${MOST_SEARCHED} can be searched. Shorten the lists. Example: --every 2,3,4 --seeds 8..12 --channels finishing=6..8`,
  ];
}

function shardFaults(plans: number, execution: ExecutionOptions): string[] {
  return sharingFaults(plans, execution, {
    there: plans === 1 ? 'There is only 1 plan.' : `There are only ${plans} plans to share out.`,
    parts: plans === 1 ? '1 part' : `${plans} parts`,
    more: ['widen the limits', 'widen the limits'],
  });
}
