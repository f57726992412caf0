/** The kinds of studies, by the command that asks for them: how each is set up and what its result says. */

import { comparisonFaults } from '../../sim/calls/compare.js';
import { candidatesWithin } from '../../sim/calls/search.js';
import { lightNotes } from '../../sim/scenario/light-notes.js';
import { toPlan } from '../../sim/scenario/plan.js';
import { variationText, vary } from '../../sim/scenario/vary.js';
import type { WorkloadTallies } from '../../sim/seasons/workload-tallies.js';
import { type CompareResult, type Contender, compareStudy } from '../../sim/study/compare.js';
import { FIGURES } from '../../sim/study/figures/figures.js';
import type { CandidateResult } from '../../sim/study/search/candidate-test.js';
import type { Candidate } from '../../sim/study/search/candidates.js';
import type { SearchResult } from '../../sim/study/search/result.js';
import { searchStudy } from '../../sim/study/search/search.js';
import { sizesOf } from '../../sim/study/size/layout.js';
import { type SizeResult, sizeStudy } from '../../sim/study/size/size.js';
import type { Study } from '../../sim/study/study.js';
import { type RunResult, runStudy } from '../../sim/study/summary.js';
import { readSource } from '../inputs/scenario-file.js';
import type { Form } from '../options/options.js';
import { Problem } from '../problem.js';
import { compareRows, compareSections } from '../sections/compare.js';
import { runRows, runSections } from '../sections/run.js';
import { searchRows } from '../sections/search/rows.js';
import { searchSections } from '../sections/search/search.js';
import type { Rows, Section } from '../sections/section.js';
import { sizeRows } from '../sections/size/rows.js';
import { sizeSections } from '../sections/size/size.js';
import type {
  Assignment,
  CompareAssignment,
  RunAssignment,
  SearchAssignment,
  SizeAssignment,
} from './assignment.js';

/** What the program must know of a kind of study. */
interface StudyKind<Asked, Collected, Result> {
  /**
   * @param form in which the result will be told; null if in any
   * @throws Problem if a scenario is wrong or the options do not fit it
   */
  study(asked: Asked, form: Form | null): Study<Collected, Result>;
  /** @param all whether to tell what is told in brief otherwise */
  sections(result: Result, asked: Asked, all: boolean): Section[];
  rows(result: Result): Rows;
}

/** The kind of a study. What it yields and results in is its own business: only itself reads it. */
export function kindOf(asked: Assignment): StudyKind<Assignment, unknown, unknown> {
  const kinds = { run, compare, size, search } as unknown as Record<
    Assignment['command'],
    StudyKind<Assignment, unknown, unknown>
  >;
  return kinds[asked.command];
}

const run: StudyKind<RunAssignment, WorkloadTallies, RunResult> = {
  study: ({ sources, seed, seasons }, form) =>
    runStudy(readSource(sources[0]!).plan, seed, seasons, form === 'csv'),
  sections: (result, _, all) => runSections(result, all),
  rows: runRows,
};

const compare: StudyKind<CompareAssignment, WorkloadTallies, CompareResult> = {
  study: (asked) => {
    const contenders = contendersOf(asked);
    const { isToldOf = () => true } = FIGURES.find(({ name }): boolean => name === asked.by) ?? {};
    if (!contenders.some(({ plan }) => isToldOf(plan)))
      throw new Problem(
        `--by must not be ${asked.by}: none of the plans tells what it is made of. evensow check FILE says which keys would; or order by another figure. Example: --by heads_a_week`,
      );
    return compareStudy(contenders, asked.seed, asked.seasons, asked.by);
  },
  sections: (result) => compareSections(result),
  rows: compareRows,
};

/** Each scenario with each variation. */
function contendersOf({ sources, variations }: CompareAssignment): Contender[] {
  const faults: string[] = [];
  const contenders: Contender[] = [];
  for (const source of sources) {
    const told = readSource(source);
    for (const variation of variations.length === 0 ? [{}] : variations) {
      const varied = vary(told.scenario, variation);
      if (!varied.ok) {
        const where = sources.length === 1 ? '' : `${source.name}: `;
        const found = varied.faults.map((fault) => where + fault);
        faults.push(...found.filter((fault) => !faults.includes(fault)));
        continue;
      }
      const change = variationText(variation);
      const name =
        sources.length === 1 ? change : variations.length === 0 ? source.name : `${source.name}: ${change}`;
      const plan = toPlan(varied.value);
      const notes = lightNotes(told, variation, { scenario: varied.value, plan });
      contenders.push({ name, plan, notes });
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

const size: StudyKind<SizeAssignment, WorkloadTallies, SizeResult> = {
  study: ({ sources, layout, seed, seasons }) => {
    const { plan } = readSource(sources[0]!);
    const sizes = sizesOf(plan, layout);
    if (!sizes.ok) throw new Problem(sizes.faults.join('\n'));
    return sizeStudy(plan, sizes.value, layout.kind, seed, seasons);
  },
  sections: (result) => sizeSections(result),
  rows: sizeRows,
};

const search: StudyKind<SearchAssignment, readonly CandidateResult[], SearchResult> = {
  study: (asked) => {
    const { heads, weeksMet, least, confidence, near, runners, seasons: first, seed } = asked;
    const goal = { heads, weeksMet, least, confidence, near, runners, first };
    return searchStudy(candidatesOf(asked), goal, seed);
  },
  sections: (result, asked) => searchSections(result, asked),
  rows: searchRows,
};

/** @throws Problem if the limits or the goal do not fit the scenario */
function candidatesOf({ sources, grid, least }: SearchAssignment): Candidate[] {
  const candidates = candidatesWithin(readSource(sources[0]!).scenario, grid, least);
  if (!candidates.ok) throw new Problem(candidates.faults.join('\n'));
  return candidates.value;
}
