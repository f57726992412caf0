/** What a figure is, and what it is computed from. */

import type { Histogram } from '../../engine/tally.js';
import type { Plan } from '../../models/plan.js';
import type { TakesSample } from '../takes/amounts.js';

/** The weeks that count. */
export interface Weeks {
  /** Picks of each of them, of all seasons. */
  readonly picks: Histogram;
}

/** What the figures of a plan are computed from: all its seasons, or a section of them. */
export interface Sample extends Weeks, TakesSample {}

/** A plan in a study: all its seasons, and each section (null where none was run). */
export interface Samples {
  readonly all: Sample;
  readonly sections: readonly (Sample | null)[];
}

/** What a figure is of: the whole line, or each of its stages or crops. */
export type Scope = 'whole' | 'stage' | 'crop';

/** A figure: one entry of the table. */
export interface Figure {
  /** As in JSON, in CSV and in `--by`. */
  readonly name: string;
  /** What a grower calls it. */
  readonly label: string;
  /** What it is, in one or two sentences. */
  readonly means: string;
  /** The same at the beginning of a row, in at most 14 letters. */
  readonly short: string;
  /** The same over a column. */
  readonly column: string;
  /** '%' stands for a share, from 0 to 1. */
  readonly unit: string;
  /** Decimals that are shown; 'few': none from 100 on and where it is whole, else one. */
  readonly decimals: number | 'few';
  readonly better: 'more' | 'less';
  readonly scope: Scope;
  /** Of a quantile of the picks of a week: which. Its interval is one of whole numbers (see week-quantiles.ts). */
  readonly quantile?: number;
  /** Does it depend on what is drained where a tank is filled anew (see takes/drained.ts)? Left out: no. */
  readonly ofDrained?: true;
  /** Does a plan tell what it needs? Where not, it is not even named; left out: any plan does. */
  isToldOf?(plan: Plan): boolean;
  /**
   * @param at which stage or crop
   * @returns NaN where there is no such figure
   */
  of(sample: Sample, at?: number): number;
}
