/** `evensow compare [FILES]`: several plans side by side, with the same luck. */

import { SEEDS } from '../../sim/models/limits.js';
import type { LightKey } from '../../sim/scenario/light.js';
import type { Cadence, Variation } from '../../sim/scenario/vary.js';
import { ORDERS } from '../../sim/study/compare.js';
import { loadScenario, scenarioInput } from '../inputs/scenario-file.js';
import { checkInputs } from '../io/text-file.js';
import { cadenceLists, oneOf, weekdayLists, wholeList } from '../options/lists.js';
import { checkOut, type Options, seasonsOf, studyOptions } from '../options/options.js';
import { type LightList, lightLists } from '../options/stage-lists.js';
import { VISIT_WORDS } from '../options/words.js';
import { Problem } from '../problem.js';
import { MOST_COMPARED, SEEDS_A_WEEK } from '../studies/assignment.js';
import { carryOutStudy } from '../studies/perform.js';

/** Options that may be given several times come as lists. */
export type CompareOptions = Options & {
  readonly [Key in LightKey]?: readonly string[];
};

export async function compareCommand(files: readonly string[], options: CompareOptions): Promise<number> {
  const faults: string[] = [];
  const asked = studyOptions(options, faults);
  const by = oneOf('--by', options['by'], ORDERS, faults);
  const variations = variationsOf(options, faults);
  const count = Math.max(1, files.length) * Math.max(1, variations.length);
  if (count > MOST_COMPARED) {
    faults.push(
      `The lists must not make ${count} plans: each is compared with the first. At most ${MOST_COMPARED} can be. Shorten a list; to find a plan among many, see: evensow search --help`,
    );
  }
  if (faults.length > 0) throw new Problem(faults.join('\n'));

  const named = files.length === 0 ? [undefined] : files;
  checkInputs('the scenarios', named, 'evensow compare - with-a-third-nursery.yaml < my-line.yaml');
  const inputs = named.map(scenarioInput);
  await checkOut(
    asked.execution.out,
    inputs.length === 1 ? inputs : inputs.map(({ path }) => ({ path, what: 'one of the scenarios' })),
  );
  const read = [];
  for (const file of named) read.push(await loadScenario(file, 'optional'));
  const plans = read.map(({ plan }) => plan);
  const sources = read.map(({ source }) => source);
  const { seed = plans[0]!.seed, execution } = asked;
  const seasons = seasonsOf(plans, asked);
  return carryOutStudy({ command: 'compare', sources, seed, seasons, variations, by }, execution);
}

/**
 * Every cadence with every number of seeds, all visits and all light that were named; none if nothing was. Other light is held against
 * the scenario as it is, which then stands first.
 */
function variationsOf(options: CompareOptions, faults: string[]): Variation[] {
  const cadences: Cadence[] = [
    ...cadenceLists(options['every'], options['on'], faults),
    ...(options.refill ? [{ refill: true } as const] : []),
  ];
  const seeds = wholeList('--seeds', options['seeds'], SEEDS, '4,6,8', faults);
  const aWeek = wholeList('--seeds-a-week', options['seedsAWeek'], SEEDS_A_WEEK, '20,30', faults);
  const visits = weekdayLists('--visits', options['visits'], VISIT_WORDS.compare, faults);
  if (seeds.length > 0 && aWeek.length > 0) {
    faults.push(
      '--seeds and --seeds-a-week must not be given together. One says seeds per sowing, the other seeds a week. Leave one out.',
    );
  }
  let variations: Variation[] = cadences.map((cadence) => ({ cadence }));
  const times = (changes: readonly Variation[]): void => {
    if (changes.length === 0) return;
    const before = variations.length === 0 ? [{}] : variations;
    // A refill has no seeds per sowing: it stands once, not once for each number of seeds.
    const fits = (variation: Variation, change: Variation): boolean =>
      !(variation.cadence !== undefined && 'refill' in variation.cadence) ||
      (change.seeds === undefined && change.seedsAWeek === undefined);
    variations = before.flatMap((variation) => {
      const varied = changes.filter((change) => fits(variation, change));
      return varied.length === 0 ? [variation] : varied.map((change) => joined(variation, change));
    });
  };
  times(seeds.map((count) => ({ seeds: count })));
  times(aWeek.map((count) => ({ seedsAWeek: count })));
  const light = (['ppfd', 'hours'] as const).flatMap((key) =>
    lightLists(key, options[key], faults).map((list) => lightChanges(key, list)),
  );
  for (const changes of light) times(changes);
  times(visits.map((days) => ({ visits: days as NonNullable<Variation['visits']> })));
  return light.length === 0 ? variations : [{}, ...variations];
}

function lightChanges(key: LightKey, { stage, values }: LightList): Variation[] {
  return values.map((value) => ({ [key]: stage === null ? value : { [stage]: value } }));
}

/** Both changes; of light, the stages of both. */
function joined(before: Variation, change: Variation): Variation {
  const both = { ...before, ...change };
  for (const key of ['ppfd', 'hours'] as const) {
    const [ours, theirs] = [before[key], change[key]];
    if (typeof ours === 'object' && typeof theirs === 'object') both[key] = { ...ours, ...theirs };
  }
  return both;
}
