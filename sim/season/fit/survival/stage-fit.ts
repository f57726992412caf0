/**
 * Fits growth time, spread, loss and germination of each kind of plant to what was seen of a stage.
 *
 * Where holes were short the plants of all kinds stand in one queue, so each kind is fitted with the others
 * as they were fitted last, round after round (see kind-search.ts); and the likelihood needs a grid of time
 * (see grids.ts), which must be fine beside the spread that is found in the end.
 */

import { fifoStays } from './fifo-stays.js';
import { CELL } from './grids.js';
import {
  chancesAt,
  type Fitted,
  type KindModel,
  KindSearch,
  parametersAt,
  RARELY,
  SPEAKS,
  type Start,
} from './kind-search.js';
import { type Group, type StageRecord, total } from './record.js';
import { type Censored, fitSample } from './sample.js';
import { StageLikelihood } from './stage-likelihood.js';

/** Unit of the lattice [d]: at most that, so that the cells of the coarser grid are whole parts of a day. */
const WIDEST_UNIT = 1 / 4;
const FINEST_UNIT = 1 / 32;
/**
 * A law whose standard deviation is less than so many cells cannot be told on the grid, and none is tried.
 */
const LEAST_CELLS = 4;
/** The law that is found covers at least so many, so that narrower ones can be tried beside it. */
const FINE_CELLS = 6;
/**
 * A search does not start at less spread than this: where all plants left at the same age, a likelihood is
 * flat there.
 */
const LEAST_START = 0.08;

/**
 * @param questions one for each kind
 * @param compare whether to fit the other shapes too
 * @returns for each kind; null for one that was not to be fitted
 */
export function fitStage(
  record: StageRecord,
  questions: readonly KindModel[],
  compare: boolean,
): (Fitted | null)[] {
  const starts = questions.map((question, kind) => startsOf(record, kind, question));
  let unit = WIDEST_UNIT;
  let likelihood = new StageLikelihood(record, questions.length, unit);
  const together = likelihood.kindsTogether;
  const narrowest = (): number => (together ? LEAST_CELLS * CELL * unit : 0);
  const parameters = questions.map((question, kind) => parametersAt(question, starts[kind]![0]!));
  for (const [kind, question] of questions.entries()) {
    const tried = starts[kind]!.map((start) => {
      const at = parametersAt(question, start);
      const chances = parameters.map((other, k) => chancesAt(questions[k]!, k === kind ? at : other));
      return { at, value: likelihood.value(chances, kind) };
    });
    const best = tried.reduce((a, b) => (b.value > a.value + SPEAKS ? b : a));
    parameters[kind] = best.at;
  }
  const searches = questions.map(
    (_, kind) => new KindSearch(likelihood, questions, kind, parameters, narrowest()),
  );
  const asked = searches.filter(({ question }) => question.fit);
  for (;;) {
    for (let round = 0; round < (together && searches.length > 1 ? 2 : 1); round++) {
      for (const search of asked) search.climb();
    }
    const fine = unitFor(Math.min(...asked.map(({ deviation }) => deviation)));
    const finer = asked.some(({ atNarrowest }) => atNarrowest) ? Math.min(fine, unit / 2) : fine;
    if (!together || unit === FINEST_UNIT || finer >= unit) break;
    unit = unit / 2;
    likelihood = new StageLikelihood(record, questions.length, unit);
    for (const search of searches) search.change(likelihood, narrowest());
  }
  return searches.map((search) => {
    if (!search.question.fit) return null;
    // The others may have moved since.
    if (together) search.climb();
    return search.fitted(compare);
  });
}

/** The largest power of a half at which a law of this standard deviation [d] covers FINE_CELLS cells. */
function unitFor(deviation: number): number {
  const unit = 2 ** Math.floor(Math.log2(deviation / (FINE_CELLS * CELL)));
  return Math.min(WIDEST_UNIT, Math.max(FINEST_UNIT, unit));
}

/**
 * First guesses, at least one: every plant by itself, first in, first out. The first takes what is dead to be cleared at
 * every visit, and so what stands to live; the others take what stands for dead.
 */
function startsOf(record: StageRecord, kind: number, { shape, guess }: KindModel): Start[] {
  const groups = record.groups.filter((group) => group.kind === kind);
  const sample = groups.flatMap((group) => readyTimes(group, record));
  const left = sample.filter(({ to }) => to < Infinity);
  const ready = total(groups.flatMap((group) => group.ready));
  const dead = total(groups.flatMap((group) => group.dead));
  const standing = groups.reduce((sum, group) => sum + group.standing, 0);
  const start = (times: readonly Censored[], lost: number, cleared: number): Start => {
    const share = (lost + 0.5) / (lost + ready + 1);
    // Plants that left on the day on which they came tell nothing.
    if (ready === 0 || left.length === 0) return { ...guess, lost: share, cleared };
    const { mean, cv } = fitSample(shape, times);
    return { mean, cv: Math.min(1.5, Math.max(LEAST_START, cv)), lost: share, cleared };
  };
  return [start(sample, dead, 1), ...RARELY.map((chance) => start(left, dead + standing, chance))];
}

/** Plants that left ready between two visits, and those that stand. */
function readyTimes(group: Group, { visits }: StageRecord): Censored[] {
  return fifoStays(group, { visits, groups: [] }).flatMap(({ day, count, end, visit }): Censored[] => {
    const age = visits[visit]!.day - day;
    if (end === 'standing') return age > 0 ? [{ from: age, to: Infinity, count }] : [];
    if (end === 'dead' || age <= 0) return [];
    return [{ from: Math.max(0, visits[visit - 1]!.day - day), to: age, count }];
  });
}
