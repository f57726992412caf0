/** Light and what the lamps draw. Lamps burn over every hole of a stage, full or empty. */

import type { LampPlan } from './plan.js';

/** Seconds an hour, mol a umol: turns umol m-2 s-1 over an hour into mol m-2. */
const MOL_PER_UMOL_HOUR = 0.0036;

/** Daily light integral [mol m-2 d-1]. @param ppfd [umol m-2 s-1] @param hours [h/d] */
export function dailyLight(ppfd: number, hours: number): number {
  return ppfd * hours * MOL_PER_UMOL_HOUR;
}

/**
 * What the lamps over one hole draw in a day [kWh]; null where it is not told. A dark stage needs no lamps, so nothing.
 * @param areaM2 of the hole; null: not told
 * @param holes of the stage, all channels together
 */
export function kwhPerHoleDay(lamps: LampPlan, areaM2: number | null, holes: number): number | null {
  const { ppfd, hours, power } = lamps;
  if (power?.kind === 'metered') return (power.watts * hours) / 1000 / holes;
  if (ppfd === 0 || hours === 0) return 0;
  if (power === null || areaM2 === null) return null;
  return (areaM2 * ppfd * hours) / (1000 * power.efficacy * power.reaches);
}
