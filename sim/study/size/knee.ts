/** After which of the sizes that nothing beats more room stops to pay: the knee of the frontier. */

import { WORTH } from '../bottleneck.js';
import type { Offer } from '../frontier.js';

/** The plan where the frontier bends most. */
export interface Knee {
  /** Its place among the offers. */
  readonly at: number;
  /** How far it lies above the straight line, as a share of the rise from the cheapest to the best [0..1]. */
  readonly height: number;
}

/** An offer that lies above the line by less than this share of the rise is none that stands out. */
const STANDS_OUT = 0.1;

/**
 * The offer of the frontier that lies farthest above the straight line from the cheapest offer to the dearest.
 *
 * The line ends at the dearest cost that was tried, at the height of the best offer: where more room brings nothing at all the
 * frontier stops, and its last offer is the bend. Distance from the line through the ends: for two aims the definition of
 * Das (1999), Structural Optimization 18:107, and of Satopää, Albrecht, Irwin & Raghavan (2011), 31st International Conference
 * on Distributed Computing Systems Workshops, 166 (both as quoted by others). It is measured upwards: that picks the same offer
 * as the distance at right angles, in any units.
 * @param frontier of `offers`
 * @returns null if none stands out (by STANDS_OUT), or if the best gives hardly more than the cheapest
 */
export function kneeOf(offers: readonly Offer[], frontier: readonly number[]): Knee | null {
  if (frontier.length < 2) return null;
  const low = offers[frontier[0]!]!;
  const most = offers[frontier.at(-1)!]!.gain;
  const rise = most - low.gain;
  const width = Math.max(...offers.map(({ cost }) => cost)) - low.cost;
  if (!(rise >= WORTH * most)) return null;
  let knee: Knee | null = null;
  for (const at of frontier) {
    const { cost, gain } = offers[at]!;
    const height = (gain - low.gain) / rise - (cost - low.cost) / width;
    if (height >= STANDS_OUT && height > (knee?.height ?? 0)) knee = { at, height };
  }
  return knee;
}
