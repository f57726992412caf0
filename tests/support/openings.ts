/** Single openings, for tests. */

import type { Opening } from '../../sim/models/opening.js';
import { Opener, type Openings } from '../../sim/season/ahead/openings.js';

/** The k-th opening; null if the season has not begun. */
export function openingOf(openings: Openings, k: number): Opening | null {
  return openings.stand && new Opener(openings.stand).opening(openings.fates(k));
}
