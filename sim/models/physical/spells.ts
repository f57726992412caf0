/** Air that changes by date: the season in stretches of one air each. */

import type { Growing } from '../plan.js';
import type { Air, Climate } from './plan.js';

/** Days of a season with one air. */
export interface AirStretch {
  /** First day, and the first day after it, whole [d from the start]. */
  readonly from: number;
  readonly beyond: number;
  /** Its place among the climate's spells; null where the air is as usual. */
  readonly spell: number | null;
  readonly air: Air;
}

/** The stretches of a season, one after the other. @param days its length [d] */
export function airStretches(climate: Climate, days: number): AirStretch[] {
  const { dated, ...usual } = climate;
  const stretches: AirStretch[] = [];
  let day = 0;
  const usualUntil = (beyond: number): void => {
    if (beyond > day) stretches.push({ from: day, beyond, spell: null, air: usual });
    day = Math.max(day, beyond);
  };
  for (const [spell, { from, beyond, air }] of dated.entries()) {
    usualUntil(Math.min(from, days));
    const until = Math.min(beyond, days);
    if (until > day) stretches.push({ from: day, beyond: until, spell, air });
    day = Math.max(day, until);
  }
  usualUntil(days);
  return stretches;
}

/** How many times as long as usual a growth takes on a day [d from the start]. */
export function timesOn({ spells = [] }: Growing, day: number): number {
  return spells.find(({ from, beyond }) => from <= day && day < beyond)?.times ?? 1;
}
