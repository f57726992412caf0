/** After which of the sizes that nothing beats more room stops to pay: the knee of the frontier. */

import { largest } from '../../engine/lists.js';
import type { Offer } from '../frontier.js';

/** The plan from which on more room brings less than its share. */
export interface Knee {
  /** Its place among the offers. */
  readonly at: number;
  /** How far it lies above the straight line from the cheapest to the dearest cost that was tried, as a share of the rise [0..1]. */
  readonly height: number;
  /** What it gives for each unit of its cost. */
  readonly up_to: number;
  /** The most that a dearer offer gives for each unit that it costs more; 0 if none gives more. */
  readonly beyond: number;
}

/** More room pays as long as each 1 % of it brings at least this many % more. */
const PAYS = 0.5;

/**
 * The cheapest offer of the frontier beyond which no dearer one pays: each gives more by less than half of the share by which it costs
 * more.
 *
 * That is a matter of the offer and of the dearer ones, so it does not move when more are tried that do not pay; the distance from a
 * line through the ends, of which knees are often made, moves with the ends. Where already the cheapest offer is such a one the
 * knee may lie below it, and where more was not tried of everything it may lie beyond: then there is none among these.
 * @param frontier of `offers`
 * @param moreTried whether more was tried of everything that an offer can have more of
 * @returns null if there is none among them
 */
export function kneeOf(
  offers: readonly Offer[],
  frontier: readonly number[],
  moreTried: (at: number) => boolean = () => true,
): Knee | null {
  const low = offers[frontier[0]!];
  if (low === undefined) return null;
  const dearest = largest(offers.map(({ cost }) => cost));
  const beyondOf = ({ cost, gain }: Offer): number =>
    Math.max(
      0,
      ...frontier
        .map((at) => offers[at]!)
        .map((more) => (more.cost > cost ? (more.gain - gain) / (more.cost - cost) : 0)),
    );
  const at = frontier.find((place) => {
    const offer = offers[place]!;
    return offer.cost < dearest && beyondOf(offer) < (PAYS * offer.gain) / offer.cost;
  });
  if (at === undefined || at === frontier[0] || !moreTried(at)) return null;
  const { cost, gain } = offers[at]!;
  const rise = offers[frontier.at(-1)!]!.gain - low.gain;
  return {
    at,
    height: (gain - low.gain) / rise - (cost - low.cost) / (dearest - low.cost),
    up_to: gain / cost,
    beyond: beyondOf(offers[at]!),
  };
}
