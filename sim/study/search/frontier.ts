/** The plans that no other beats in two figures at once. */

import { frontierOf } from '../frontier.js';

/** Figures are rough: differences below this count as none. */
const STEP = 0.01;

/**
 * @param points two shares each, larger is better in both
 * @returns numbers of the points for which no other is at least as large in both and larger in one, to the hundredth; those with the
 *   largest first figure first; of equal points the one that comes first
 */
export function paretoFrontier(points: readonly (readonly [number, number])[]): number[] {
  const rough = (share: number): number => Math.round(share / STEP);
  return frontierOf(points.map(([x, y]) => ({ cost: -rough(x), gain: rough(y) })));
}
