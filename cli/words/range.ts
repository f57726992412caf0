/** What a figure may be, in few letters. */

import type { Forecast } from '../../sim/season/ahead/forecast.js';
import { type Bounds, COUNT, intervalText } from './numbers.js';

/** How many futures stay within ranges that are told, on average: what must be true of what is printed. */
export function mostText(ranges: readonly Told[]): string {
  const shares = ranges.filter(({ low, high }) => low < high).map(({ share }) => share);
  const mean = shares.reduce((sum, share) => sum + share, 0) / shares.length;
  return Math.abs(mean - 0.8) > 0.02 ? `${Math.round(100 * mean)} % of futures` : '8 of 10 futures';
}

type Told = Pick<Forecast, 'low' | 'high' | 'share'>;

/** What stands behind a mean: `(13 to 19)`; nothing where one number only is likely. */
export function withinText({ low, high }: Bounds): string {
  return low === high ? '' : `(${intervalText({ low, high }, COUNT)})`;
}
