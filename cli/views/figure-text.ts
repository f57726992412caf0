/** Values of figures as a grower reads them: unit and decimals come from the table of figures. */

import type { Estimate } from '../../sim/seasons/sections.js';
import type { Figure } from '../../sim/study/figures.js';
import { countText, decimalsFor, gainText, percentText } from './format.js';

/** A value without its unit; a share as a percentage. */
export function figureText({ unit, decimals }: Figure, value: number): string {
  if (unit === '%') return percentText(value);
  return decimals === 'few' ? countText(value) : value.toFixed(decimals);
}

/** A difference with its sign, and its interval if it has one: `+1.3` and `+1.0 to +1.6`. */
export function differenceText(
  { unit }: Figure,
  { mean, low, high }: Estimate,
): { readonly amount: string; readonly interval: string | null } {
  const [scale, sign] = unit === '%' ? [100, ' %'] : [1, ''];
  const largest = Math.max(Math.abs(mean), Math.abs(low ?? 0), Math.abs(high ?? 0));
  const decimals = Math.max(1, decimalsFor(largest * scale));
  const text = (value: number): string => gainText(value * scale, decimals);
  return {
    amount: `${text(mean)}${sign}`,
    interval: low === null || high === null ? null : `${text(low)} to ${text(high)}${sign}`,
  };
}
