/** What the thread that runs seasons is asked, and what it answers: plain data, sent between threads. */

import type { Scenario } from '../../../sim/scenario/schema.js';
import type { Difference } from '../../../sim/study/compare.js';
import type { FigureName } from '../../../sim/study/figures.js';
import type { FilmData } from '../../../sim/study/film/film-data.js';
import type { RunResult } from '../../../sim/study/summary.js';

export interface Question {
  /** Rises with each question; a newer one makes older ones void. */
  readonly id: number;
  readonly scenario: Scenario;
  /** The plan that the difference is taken to; null for none. */
  readonly before: Scenario | null;
  /** Which season is filmed. */
  readonly season: number;
  /** Only the film is wanted: the figures are known. */
  readonly onlyFilm: boolean;
}

/** The figures that are compared with those of the plan before. */
export const COMPARED = ['heads_a_week', 'bad_week'] as const satisfies readonly FigureName[];

/** null where one of the two plans has no such figure. */
export type Differences = Readonly<Record<(typeof COMPARED)[number], Difference | null>>;

export type Reply =
  | { readonly kind: 'film'; readonly id: number; readonly film: FilmData }
  | {
      readonly kind: 'figures';
      readonly id: number;
      /** null if it was sent before. */
      readonly film: FilmData | null;
      /** Without `limits` at first; they come with a second reply. */
      readonly result: RunResult;
      /** null without a plan before. */
      readonly differences: Differences | null;
    }
  | { readonly kind: 'failed'; readonly id: number; readonly message: string };
