/** What the thread that runs seasons is asked, and what it answers: plain data, sent between threads. */

import type { Scenario } from '../../../sim/scenario/schema.js';
import type { Estimate } from '../../../sim/seasons/sections.js';
import type { Verdict } from '../../../sim/study/compare.js';
import type { FilmData } from '../../../sim/study/film/film-data.js';
import type { RunResult } from '../../../sim/study/summary.js';

/** Seasons that are run at each change. */
export const SEASONS = 200;

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

/** How a figure differs from that of the plan before. */
export interface Difference extends Estimate {
  readonly verdict: Verdict;
}

export type Reply =
  | { readonly kind: 'film'; readonly id: number; readonly film: FilmData }
  | {
      readonly kind: 'figures';
      readonly id: number;
      /** null if it was sent before. */
      readonly film: FilmData | null;
      /** Without `limits` at first; they come with a second reply. */
      readonly result: RunResult;
      /** Heads a week, and heads in a bad week; null without a plan before. */
      readonly differences: { readonly heads: Difference | null; readonly badWeek: Difference | null } | null;
    }
  | { readonly kind: 'failed'; readonly id: number; readonly message: string };
