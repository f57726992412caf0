/** Which sizes nothing beats, and after which of them more room stops to pay: the frontier and its knee. */

import { WORTH } from '../bottleneck.js';

/** What a plan costs (holes, or m2) and gives (heads a week). */
export interface Offer {
  readonly cost: number;
  readonly gain: number;
}

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
 * The offers that no other beats: none gives as much for less, or more for as little. Of equal ones the first.
 * @returns places, the cheapest first
 */
export function frontierOf(offers: readonly Offer[]): number[] {
  const order = offers
    .map((_, i) => i)
    .sort((a, b) => offers[a]!.cost - offers[b]!.cost || offers[b]!.gain - offers[a]!.gain || a - b);
  let most = Number.NEGATIVE_INFINITY;
  return order.filter((i) => {
    const more = offers[i]!.gain > most;
    if (more) most = offers[i]!.gain;
    return more;
  });
}

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
