/**
 * What a study was asked to do, as plain data: the texts of its scenarios and its options.
 *
 * It stands in each part of a study that is spread over machines, so that the parts can be told to belong together and
 * what was asked can be concluded from them without the files.
 */

import type { Variation } from '../sim/scenario/vary.js';

/** A scenario as it was read. */
export interface Source {
  /** Name of the file, for messages. */
  readonly name: string;
  readonly text: string;
}

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

export type Assignment = RunAssignment | CompareAssignment;
