/** How a figure of the table of figures is written, and what is said of a difference in it. */

import type { Estimate } from '../../sim/seasons/sections.js';
import type { Verdict } from '../../sim/study/compare.js';
import type { Figure } from '../../sim/study/figures/figure.js';
import { COUNT, decimalsFor, type Form, fixed, SHARE, signed } from './numbers.js';

export function formOf({ unit, decimals }: Pick<Figure, 'unit' | 'decimals'>): Form {
  if (unit === '%') return SHARE;
  if (unit === 'day') return { as: 'day' };
  return decimals === 'few' ? COUNT : fixed(decimals);
}

/** How a difference between two values of a figure is written. */
export function gainFormOf(
  { mean, low, high }: Estimate,
  { unit, decimals }: Pick<Figure, 'unit' | 'decimals'>,
): Form {
  if (decimals === 0) return signed(0);
  const largest = Math.max(...[mean, low ?? 0, high ?? 0].map(Math.abs));
  const percent = unit === '%';
  return signed(Math.max(1, decimalsFor(percent ? largest * 100 : largest)), percent);
}

export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  more: 'more',
  less: 'less',
  none: 'no difference',
  unknown: 'too few seasons to tell',
};
