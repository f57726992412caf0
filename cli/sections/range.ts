/** What a figure may be, as cells of a table. */

import type { Range } from '../../sim/season/ahead/range.js';
import { COUNT } from '../words/numbers.js';
import { spanOf, withinText } from '../words/range.js';
import { type Cell, figure, interval } from './section.js';

/** The whole number to expect, with what eight in ten futures stay within. */
export function expected(range: Range): Cell {
  return figure(Math.round(range.mean), COUNT, withinText(range));
}

/** What eight in ten futures stay within. */
export function span(range: Range): Cell {
  const { low, high } = spanOf(range);
  return low === high ? figure(low, COUNT) : interval({ low, high }, COUNT);
}
