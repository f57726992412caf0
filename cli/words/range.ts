/** What a figure may be, in few letters. */

import type { Range } from '../../sim/season/ahead/range.js';
import { type Bounds, COUNT, intervalText } from './numbers.js';

/** The whole numbers that eight in ten futures stay within; one and the same where there is one only. */
export function spanOf({ p10, p50, p90 }: Range): Bounds {
  const low = Math.ceil(p10);
  const high = Math.floor(p90);
  // Between two whole numbers there may be none: then the one in the middle.
  if (low > high) return { low: Math.round(p50), high: Math.round(p50) };
  return { low, high };
}

/** What stands behind a mean: `(13 to 19)`; nothing where one number only is likely. */
export function withinText(range: Range): string {
  const { low, high } = spanOf(range);
  return low === high ? '' : `(${intervalText({ low, high }, COUNT)})`;
}
