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
/** Chances of clearing what is dead at a visit that are tried beside 1. */
const RARELY = [0.9, 0.5, 0.15, 0.01];
/**
 * So much a record must speak against clearing at every visit [ln of likelihood]: of logs of prompt growers 1 in 400 does by chance.
 * Of growers who clear at 4 of 5 visits 8 in 10 are not noticed then, and the spread held in 88 %; with 2 in 92 %, but then the
 * choice between the two costs prompt growers a point of what holds.
 */
const SPEAKS = 4;

/**
 * What is dead is first taken to be cleared at every visit. If the record speaks against that, it is not known when it was
 * cleared, nor whether: then nothing is made of it, and what was cleared counts as what still stands, alive or not. That is
 * right whatever the grower's habit is.
 *
 * @param questions one for each kind
 * @param compare whether to fit the other shapes too
 * @returns for each kind; null for one that was not to be fitted
 */
export function fitStage(
  record: StageRecord,
  questions: readonly KindModel[],
  compare: boolean,
): (Fitted | null)[] {
  const promptly = fitWith(record, questions, compare, 1);
  if (promptly !== null) return promptly;
  const groups = record.groups.map((group): Group => {
    return { ...group, dead: [], standing: group.standing + total(group.dead) };
  });
  return fitWith({ ...record, groups }, questions, compare, 0)!;
}

/**
 * @param cleared chance that what is dead is cleared at a visit: 1 or 0
 * @returns null if it is 1 and the record speaks against that
 */
function fitWith(
  record: StageRecord,
  questions: readonly KindModel[],
  compare: boolean,
  cleared: number,
): (Fitted | null)[] | null {
  let unit = WIDEST_UNIT;
  let likelihood = new StageLikelihood(record, questions.length, unit);
  const together = likelihood.kindsTogether;
  const narrowest = (): number => (together ? LEAST_CELLS * CELL * unit : 0);
  const starts = (alive: boolean): number[][] =>
    questions.map((question, kind) => parametersAt(question, startOf(record, kind, question, alive)));
  const heightAt = (parameters: readonly (readonly number[])[], kind: number, chance: number): number =>
    likelihood.value(
      questions.map((question, k) => chancesAt(question, parameters[k]!, chance)),
      kind,
    );
  const speaks = (promptly: readonly number[][], rarely: readonly number[][]): boolean =>
    cleared === 1 &&
    questions.some(({ fit }, kind) => {
      const height = fit ? heightAt(promptly, kind, 1) : Infinity;
      return RARELY.some((chance) => heightAt(rarely, kind, chance) > height + SPEAKS);
    });
  const parameters = starts(cleared === 1);
  if (speaks(parameters, starts(false))) return null;
  const searches = questions.map(
    (_, kind) => new KindSearch(likelihood, questions, kind, parameters, narrowest(), cleared),
  );
  const asked = searches.filter(({ question }) => question.fit);
  for (;;) {
    for (let round = 0; round < (together && searches.length > 1 ? 2 : 1); round++) {
      for (const search of asked) search.climb();
    }
    if (speaks(parameters, parameters)) return null;
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
 * A first guess: every plant by itself, first in, first out.
 * @param alive whether what stands is taken to live, else to be lost
 */
function startOf(record: StageRecord, kind: number, { shape, guess }: KindModel, alive: boolean): Start {
  const groups = record.groups.filter((group) => group.kind === kind);
  const sample = groups
    .flatMap((group) => readyTimes(group, record))
    .filter(({ to }) => alive || to < Infinity);
  const ready = total(groups.flatMap((group) => group.ready));
  const dead = total(groups.flatMap((group) => group.dead));
  const standing = groups.reduce((sum, group) => sum + group.standing, 0);
  const gone = alive ? dead : dead + standing;
  const lost = (gone + 0.5) / (gone + ready + 1);
  // Plants that left on the day on which they came tell nothing.
  if (ready === 0 || !sample.some(({ to }) => to < Infinity)) return { ...guess, lost };
  const { mean, cv } = fitSample(shape, sample);
  return { mean, cv: Math.min(1.5, Math.max(LEAST_START, cv)), lost };
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
