/** What a figure may be, as cells of a table. */

import type { Forecast } from '../../sim/season/ahead/forecast.js';
import { COUNT } from '../words/numbers.js';
import { spanOf, withinText } from '../words/range.js';
import { type Cell, figure, interval } from './section.js';

/** The whole number to expect, with what eight in ten futures stay within. */
export function expected(range: Forecast): Cell {
  return figure(Math.round(range.mean), COUNT, withinText(range));
}

/** What eight in ten futures stay within. */
export function span(range: Forecast): Cell {
  const { low, high } = spanOf(range);
  return low === high ? figure(low, COUNT) : interval({ low, high }, COUNT);
}
