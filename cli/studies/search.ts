/** `search`: the cheapest plan that reaches a goal. */

import { variationsWithin } from '../../sim/scenario/grid.js';
import { toPlan } from '../../sim/scenario/plan.js';
import { seedsAWeek, visitsAWeek } from '../../sim/scenario/rates.js';
import type { Scenario } from '../../sim/scenario/schema.js';
import { type Variation, variationText, vary } from '../../sim/scenario/vary.js';
import type { Candidate, Settings } from '../../sim/study/search/candidates.js';
import type { SearchResult } from '../../sim/study/search/result.js';
import { searchStudy } from '../../sim/study/search/search.js';
import type { TrialData } from '../../sim/study/search/trial.js';
import { firstCountedWeek } from '../../sim/study/search/weeks.js';
import { readSource } from '../inputs/scenario-file.js';
import { Problem } from '../problem.js';
import { searchRows } from '../sections/search/rows.js';
import { searchSections } from '../sections/search/search.js';
import { counted } from '../words/numbers.js';
import type { SearchAssignment } from './assignment.js';
import type { Kind } from './kind.js';

export const search: Kind<SearchAssignment, readonly TrialData[], SearchResult> = {
  study: (asked) => {
    const { heads, weeksMet, least, confidence, near, runners, seasons: first, seed } = asked;
    return searchStudy(
      candidatesOf(asked),
      { heads, weeksMet, least, confidence, near, runners, first },
      seed,
    );
  },
  sections: searchSections,
  rows: searchRows,
};

/** @throws Problem if the limits or the goal do not fit the scenario */
function candidatesOf({ sources, grid, least }: SearchAssignment): Candidate[] {
  const { scenario } = readSource(sources[0]!);
  const faults = new Set<string>();
  const candidates: Candidate[] = [];
  for (const variation of variationsWithin(grid)) {
    const varied = vary(scenario, variation);
    if (typeof varied === 'string') {
      faults.add(varied);
      continue;
    }
    candidates.push({
      name: variationText(variation),
      settings: settingsOf(variation, varied),
      plan: toPlan(varied),
      seedsAWeek: seedsAWeek(varied),
      visitsAWeek: visitsAWeek(varied),
    });
  }
  if (faults.size === 0) for (const fault of misfits(scenario, least, candidates)) faults.add(fault);
  if (faults.size > 0) throw new Problem([...faults].join('\n'));
  return candidates;
}

function* misfits(
  { stages, weeks }: Scenario,
  least: SearchAssignment['least'],
  candidates: readonly Candidate[],
) {
  const dark = stages.flatMap(({ hole_area_cm2, name }, s) =>
    hole_area_cm2 === undefined ? [`stages[${s}].hole_area_cm2 (${name})`] : [],
  );
  if (least === 'light' && dark.length > 0) {
    yield `--least light must not be asked for while the area of a hole is not known everywhere. Every stage must say it; missing: ${dark.join(', ')}. Example: hole_area_cm2: 100`;
  }
  if (least === 'seeds' && candidates[0]!.seedsAWeek === null) {
    yield '--least seeds must not be asked for where a crop is refilled: how many seeds that takes depends on the season. Ask for the least of holes, or give cadences and seeds. Example: --every 2,3,4 --seeds 8..12';
  }
  const from = firstCountedWeek(candidates.map(({ plan }) => plan));
  if (!(from < weeks)) {
    const settled = Number.isFinite(from) ? `only after ${counted(from, 'week')}` : 'never';
    yield `The season must not end before the plans can be judged: the slowest has settled ${settled} (first sowing, mean times, twice their standard deviation, longest time without a visit), and the season has ${counted(weeks, 'week')}. Let it run longer, or narrow the limits. Example: weeks: ${Number.isFinite(from) ? from + 16 : 26}`;
  }
}

/** What is chosen, in the keys of the scenario file: a whole `sow` if there is one crop and its sowing is chosen. */
function settingsOf({ cadence, seeds, channels, visits }: Variation, { crops }: Scenario): Settings {
  const sow = crops.length === 1 && (cadence ?? seeds) !== undefined ? crops[0]!.sow : { ...cadence, seeds };
  return {
    ...('every' in sow ? { every: sow.every } : {}),
    ...('on' in sow ? { on: sow.on } : {}),
    ...('seeds' in sow && sow.seeds !== undefined ? { seeds: sow.seeds } : {}),
    ...(channels === undefined ? {} : { channels }),
    ...(visits === undefined ? {} : { visits }),
  };
}
