/** Values of figures as a grower reads them: unit and decimals come from the table of figures. */

import type { Figure } from '../../sim/study/figures.js';
import { countText, percentText } from './format.js';

/** A value without its unit; a share as a percentage. */
export function figureText({ unit, decimals }: Figure, value: number): string {
  if (unit === '%') return percentText(value);
  return decimals === 'few' ? countText(value) : value.toFixed(decimals);
}
