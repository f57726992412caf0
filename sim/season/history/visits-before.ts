/** Where the days of a season lie among its visits. */

/** For each day 0 .. days: how many visits were before it, which is the place of the first one from then on. */
export function visitsBefore(visits: readonly number[], days: number): Int32Array {
  let count = 0;
  return Int32Array.from({ length: days + 1 }, (_, day) => {
    while (count < visits.length && visits[count]! < day) count++;
    return count;
  });
}
