/** What a figure may be, as cells of a table. */

import type { Forecast } from '../../sim/season/ahead/forecast.js';
import { COUNT } from '../words/numbers.js';
import { withinText } from '../words/range.js';
import { type Cell, figure, interval } from './section.js';

/** The whole number to expect, with what eight in ten futures stay within. */
export function expected(range: Forecast): Cell {
  return figure(Math.round(range.mean), COUNT, withinText(range));
}

/** What eight in ten futures stay within, behind a whole number; nothing if it is that number. */
export function span({ low, high }: Forecast, behind: number): Cell {
  if (low < high) return interval({ low, high }, COUNT);
  return low === behind ? '' : figure(low, COUNT);
}
