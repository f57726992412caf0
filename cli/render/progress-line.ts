/** How far a study is, in one line. */

import { thousands } from '../words/numbers.js';

/** Places of the bar: with the words around it the line fits into 80 columns. */
const PLACES = 24;

/** @param left time left [ms]; Infinity if nobody can tell yet */
export function progressLine(done: number, all: number, left: number): string {
  const filled = Math.min(PLACES, Math.floor((done / all) * PLACES));
  const bar = `${'='.repeat(filled)}${'.'.repeat(PLACES - filled)}`;
  const time = Number.isFinite(left) ? `, ${durationText(left)} left` : '';
  return `${bar} ${thousands(done)} of ${thousands(all)} seasons${time}`;
}

/** @param ms at least 0 */
function durationText(ms: number): string {
  const seconds = Math.ceil(ms / 1000);
  if (seconds < 90) return `about ${seconds} s`;
  const minutes = Math.ceil(seconds / 60);
  return minutes < 90 ? `about ${minutes} min` : `about ${Math.ceil(minutes / 60)} h`;
}
