/** `compare`: several plans with the same luck. */

import { comparisonFaults } from '../../sim/calls/compare.js';
import { toPlan } from '../../sim/scenario/plan.js';
import { variationText, vary } from '../../sim/scenario/vary.js';
import type { Gathered } from '../../sim/seasons/gathered.js';
import { type CompareResult, type Contender, compareStudy } from '../../sim/study/compare.js';
import { readSource } from '../inputs/scenario-file.js';
import { Problem } from '../problem.js';
import { compareRows, compareSections } from '../sections/compare.js';
import type { CompareAssignment } from './assignment.js';
import type { Kind } from './kind.js';

export const compare: Kind<CompareAssignment, Gathered, CompareResult> = {
  study: (asked) => compareStudy(contendersOf(asked), asked.seed, asked.seasons, asked.by),
  sections: compareSections,
  rows: compareRows,
};

/** Each scenario with each variation. */
function contendersOf({ sources, variations }: CompareAssignment): Contender[] {
  const faults: string[] = [];
  const contenders: Contender[] = [];
  for (const source of sources) {
    const { scenario } = readSource(source);
    for (const variation of variations.length === 0 ? [{}] : variations) {
      const varied = vary(scenario, variation);
      if (!varied.ok) {
        faults.push(...varied.faults.filter((fault) => !faults.includes(fault)));
        continue;
      }
      const change = variationText(variation);
      const name =
        sources.length === 1 ? change : variations.length === 0 ? source.name : `${source.name}: ${change}`;
      contenders.push({ name, plan: toPlan(varied.value) });
    }
  }
  if (faults.length === 0 && contenders.length < 2) {
    throw new Problem(
      'There is only one plan, and nothing to compare it with. Name several cadences, seeds, visits or files. Example: evensow compare FILE --every 2,3,4,7',
    );
  }
  if (faults.length === 0) faults.push(...comparisonFaults(contenders));
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  return contenders;
}
