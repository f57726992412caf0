/** What the thread that runs seasons is asked, and what it answers: plain data, sent between threads. */

import type { Scenario } from '../../../sim/scenario/schema.js';
import type { CompareResult, Difference, PlanResult } from '../../../sim/study/compare.js';
import type { FigureName } from '../../../sim/study/figures/figures.js';
import type { FilmData } from '../../../sim/study/film/film-data.js';
import type { RunResult } from '../../../sim/study/summary.js';

/** A plan of those that stand side by side. */
export interface NamedPlan {
  readonly name: string;
  readonly scenario: Scenario;
  /** It is the one on the screen, or was when these were asked for: with it the others are compared. */
  readonly now: boolean;
}

export interface Question {
  /** Rises with each question; a newer one makes older ones void. */
  readonly id: number;
  readonly scenario: Scenario;
  /** The plan that the difference is taken to: the one that was on the screen before; null for none. */
  readonly before: Scenario | null;
  /** Which season is filmed. */
  readonly season: number;
  /** The figures of the plan are known: they need not be sent again. */
  readonly isKnown: boolean;
  /** Plans side by side, the one on the screen among them. */
  readonly strip: readonly NamedPlan[];
  /** Plans whose whole comparison is wished for, with what the strip has no room for; null for none. */
  readonly compared: readonly NamedPlan[] | null;
  /** Kept plans whose figures are missing. */
  readonly kept: readonly { readonly number: number; readonly scenario: Scenario }[];
}

/** The figures that are compared with those of the plan before. */
export const COMPARED = ['heads_a_week', 'bad_week'] as const satisfies readonly FigureName[];

/** null where one of the two plans has no such figure. */
export type Differences = Readonly<Record<(typeof COMPARED)[number], Difference | null>>;

/** What is known so far of the plans of a strip. */
export interface StripTold {
  /** Seasons that each of them is to be run. */
  readonly seasons: number;
  /** The first of the weeks that count for all of them, an ISO date; null if there is none, or if no season was run yet. */
  readonly from: string | null;
  /** In the order of the question; null where no season was run yet. */
  readonly rows: readonly RowTold[];
}

export type RowTold = { readonly result: PlanResult; readonly seasons: number } | null;

export type Reply =
  | { readonly kind: 'film'; readonly id: number; readonly film: FilmData }
  | {
      readonly kind: 'figures';
      readonly id: number;
      /** null if it was sent before. */
      readonly film: FilmData | null;
      /** `partial` as long as not all seasons are run; without `limits` at first. */
      readonly result: RunResult;
      /** null without a plan before, and as long as not all seasons are run. */
      readonly differences: Differences | null;
    }
  | { readonly kind: 'strip'; readonly id: number; readonly told: StripTold }
  | { readonly kind: 'compared'; readonly id: number; readonly result: CompareResult }
  | { readonly kind: 'kept'; readonly number: number; readonly result: RunResult }
  | { readonly kind: 'failed'; readonly id: number; readonly message: string };
