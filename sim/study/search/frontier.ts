/** The plans that no other beats in two figures at once. */

/** Figures are rough: differences below this count as none. */
const STEP = 0.01;

/**
 * @param points two shares each, larger is better in both
 * @returns numbers of the points for which no other is at least as large in both and larger in one, to the hundredth; those with the
 *   largest first figure first; of equal points the one that comes first
 */
export function paretoFrontier(points: readonly (readonly [number, number])[]): number[] {
  const rough = points.map(([x, y]) => [Math.round(x / STEP), Math.round(y / STEP)] as const);
  const order = points
    .map((_, i) => i)
    .sort((a, b) => rough[b]![0] - rough[a]![0] || rough[b]![1] - rough[a]![1] || a - b);
  let highest = Number.NEGATIVE_INFINITY;
  return order.filter((i) => {
    const [, y] = rough[i]!;
    if (y <= highest) return false;
    highest = y;
    return true;
  });
}
