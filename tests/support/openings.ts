/** Single openings, for tests. */

import type { InitialState } from '../../sim/models/initial-state.js';
import { type InitialStates, initialStateOf } from '../../sim/season/ahead/initial-states.js';

/** The k-th opening; null if the season has not begun. */
export function openingOf(openings: InitialStates, k: number): InitialState | null {
  return openings.stand && initialStateOf(openings.stand, openings.fates(k));
}
