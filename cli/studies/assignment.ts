/**
 * What a study was asked to do, as plain data: the texts of its scenarios and its options.
 *
 * It stands in each part of a study that is spread over machines, so that the parts can be told to belong together and
 * what was asked can be concluded from them without the files.
 */

import { type Limits, SEEDS } from '../../sim/models/limits.js';
import type { Grid } from '../../sim/scenario/grid.js';
import type { Variation } from '../../sim/scenario/vary.js';
import type { SearchGoal } from '../../sim/study/search/budget.js';
import type { SizeLayout } from '../../sim/study/size/layout.js';
import type { Source } from '../inputs/scenario-file.js';

/** Seeds a week: those of ten sowings, as large as they can be. */
export const SEEDS_A_WEEK: Limits = { least: 1, most: 10 * SEEDS.most };

/** Most plans of a comparison: more than anybody reads. */
export const MOST_COMPARED = 500;

/** Most channels and most m2 that may be dealt. */
export const MOST_DEALT = 1_000_000;

/** Most plans of a search: each gets its first seasons. */
export const MOST_SEARCHED = 5000;

interface Common {
  readonly sources: readonly Source[];
  readonly seed: number;
  readonly seasons: number;
}

export interface RunAssignment extends Common {
  readonly command: 'run';
}

export interface CompareAssignment extends Common {
  readonly command: 'compare';
  /** Changes to the scenarios, one plan each; none: the scenarios as they are. */
  readonly variations: readonly Variation[];
  /** Name of the figure by which the rows are ordered; null: as asked for. */
  readonly by: string | null;
}

export interface SizeAssignment extends Common {
  readonly command: 'size';
  /** Which sizes are tried. */
  readonly layout: SizeLayout;
}

/** `seasons` are the first ones, of every plan. */
export interface SearchAssignment extends Common, Omit<SearchGoal, 'first'> {
  readonly command: 'search';
  /** The limits within which the plan is sought. */
  readonly grid: Grid;
  /** true if nobody gave limits, and they were laid around the scenario. */
  readonly around: boolean;
}

export type Assignment = RunAssignment | CompareAssignment | SizeAssignment | SearchAssignment;
