/**
 * First come, first gone: how those that came are paired with the ends that were seen, where a log tells how many of
 * either there were on each day, and not which end is whose.
 */

/** So many on one day. */
interface Some {
  readonly count: number;
}

/**
 * @param came in the order of their coming @param ended in the order of their ending; no more than came
 * @param pair hears of each pair and how many it is of
 */
export function inTurn<Came extends Some, Ended extends Some>(
  came: readonly Came[],
  ended: readonly Ended[],
  pair: (came: Came, ended: Ended, count: number) => void,
): void {
  let c = 0;
  let used = 0;
  for (const end of ended) {
    for (let left = end.count; left > 0; ) {
      const first = came[c]!;
      const count = Math.min(left, first.count - used);
      pair(first, end, count);
      left -= count;
      used += count;
      if (used === first.count) {
        c++;
        used = 0;
      }
    }
  }
}
