/** `search`: the cheapest plan that reaches a goal. */

import { candidatesWithin } from '../../sim/calls/search.js';
import type { Candidate } from '../../sim/study/search/candidates.js';
import type { SearchResult } from '../../sim/study/search/result.js';
import { searchStudy } from '../../sim/study/search/search.js';
import type { TrialData } from '../../sim/study/search/trial.js';
import { readSource } from '../inputs/scenario-file.js';
import { Problem } from '../problem.js';
import { searchRows } from '../sections/search/rows.js';
import { searchSections } from '../sections/search/search.js';
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
  const candidates = candidatesWithin(readSource(sources[0]!).scenario, grid, least);
  if (!candidates.ok) throw new Problem(candidates.faults.join('\n'));
  return candidates.value;
}
