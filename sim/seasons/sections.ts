/**
 * Intervals for figures that are no plain averages (a bad week, seeds per head), and for their differences between
 * plans that met the same luck.
 *
 * Sectioning: the seasons of a study are dealt to sections; the figure is computed from all seasons and from each section
 * alone. With sections of n_s seasons, figures f_s and the figure f of all n, the squared standard error is
 * sum n_s (f_s - f)^2 / ((sections - 1) n), with as many degrees of freedom less one. Where two plans met the same luck, f is the
 * difference of their figures, so that what they have in common cancels out. Sectioning: Asmussen & Glynn, Stochastic
 * Simulation (2007), chapter III; for quantiles Nakayama, ACM TOMACS 24 (2014) 19; both from memory.
 */

import { studentInterval } from '../engine/student.js';

/** A figure and its 95 % interval; no interval (null) with fewer than 2 sections. */
export interface Estimate {
  readonly mean: number;
  readonly low: number | null;
  readonly high: number | null;
}

/** A figure of parts of the seasons, and how many seasons each has. */
export type Parts = readonly { readonly figure: number; readonly seasons: number }[];

/**
 * @param all the figure of all seasons
 * @param parts the figure of each section, and how many seasons it has
 */
export function estimate(all: number, parts: Parts): Estimate {
  const error = errorOf(all, parts);
  return error === null
    ? { mean: all, low: null, high: null }
    : studentInterval(all, error, parts.length - 1);
}

/**
 * The same of a figure whose error comes from several sources that are taken for independent: their squares are summed, with degrees of
 * freedom by Welch & Satterthwaite (from memory), rounded down.
 * @param sources the figure of parts of the seasons, each source with parts of its own
 */
export function estimateFrom(all: number, sources: readonly Parts[]): Estimate {
  let square = 0;
  let perFreedom = 0;
  for (const parts of sources) {
    const error = errorOf(all, parts);
    if (error === null) return { mean: all, low: null, high: null };
    square += error ** 2;
    perFreedom += (error ** 2) ** 2 / (parts.length - 1);
  }
  const freedom = perFreedom === 0 ? 1 : Math.max(1, Math.floor(square ** 2 / perFreedom + 1e-9));
  return studentInterval(all, Math.sqrt(square), freedom);
}

/** The standard error of a figure; null with fewer than 2 sections. @param all and @param parts as for `estimate` */
export function errorOf(all: number, parts: Parts): number | null {
  const sections = parts.length;
  if (sections < 2) return null;
  let seasons = 0;
  let squares = 0;
  for (const part of parts) {
    seasons += part.seasons;
    squares += part.seasons * (part.figure - all) ** 2;
  }
  return Math.sqrt(squares / ((sections - 1) * seasons));
}
