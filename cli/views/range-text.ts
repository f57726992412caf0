/** What a figure may be, in few letters. */

import type { Range } from '../../sim/season/ahead/range.js';
import { thousands } from '../words/numbers.js';

/** The whole numbers that eight in ten futures stay within: `13 to 21`, or `7`. */
export function spanText({ p10, p50, p90 }: Range): string {
  const low = Math.ceil(p10);
  const high = Math.floor(p90);
  // Between two whole numbers there may be none: then the one in the middle.
  if (low >= high) return thousands(low === high ? low : Math.round(p50));
  return `${thousands(low)} to ${thousands(high)}`;
}

/** A mean with its span: `16 (13 to 19)`; `7` where nothing else is likely. */
export function meanText(range: Range): string {
  const mean = thousands(Math.round(range.mean));
  const span = spanText(range);
  return span === mean || !span.includes(' ') ? mean : `${mean} (${span})`;
}
