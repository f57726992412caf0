/** `compare`: several plans with the same luck. */

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
      if (typeof varied === 'string') {
        if (!faults.includes(varied)) faults.push(varied);
        continue;
      }
      const change = variationText(variation);
      const name =
        sources.length === 1 ? change : variations.length === 0 ? source.name : `${source.name}: ${change}`;
      contenders.push({ name, plan: toPlan(varied) });
    }
  }
  const names = contenders.map(({ name }) => name);
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  if (twice !== undefined) {
    faults.push(`${twice} must not be named twice: there is nothing to compare in it. Leave one out.`);
  }
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  if (contenders.length < 2) {
    throw new Problem(
      'There is only one plan, and nothing to compare it with. Name several cadences, seeds, visits or files. Example: evensow compare FILE --every 2,3,4,7',
    );
  }
  const weeks = new Set(contenders.map(({ plan }) => plan.weeks));
  if (weeks.size > 1) {
    throw new Problem(
      `The scenarios must not have seasons of different lengths (${[...weeks].join(', ')} weeks): their picks could not be compared week by week. Give them the same number of weeks.`,
    );
  }
  return contenders;
}
