/** The frontier: the plans that no other beats. */

/** What a plan costs (such as holes, or m2) and gives (such as heads a week). */
export interface Offer {
  readonly cost: number;
  readonly gain: number;
}

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
