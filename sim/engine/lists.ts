/** Small things to do with lists. */

/** Items that have a key in common, in the order in which the keys are first met. */
export function groupedBy<Item, Key>(
  items: readonly Item[],
  keyOf: (item: Item) => Key,
): Map<Key, [Item, ...Item[]]> {
  const groups = new Map<Key, [Item, ...Item[]]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group === undefined) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return groups;
}

/** Turn jumps at each place into the level after them, in place. */
export function summedUp<Jumps extends Int32Array | Float64Array>(jumps: Jumps): Jumps {
  for (let i = 1; i < jumps.length; i++) jumps[i]! += jumps[i - 1]!;
  return jumps;
}

export function sumOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}

/** The largest of any number of values: a call takes only so many arguments. @returns `least` if none is larger */
export function largest(values: Iterable<number>, least = Number.NEGATIVE_INFINITY): number {
  let most = least;
  for (const value of values) if (value > most) most = value;
  return most;
}

/** @returns NaN if there are none */
export function meanOf(values: readonly number[]): number {
  return sumOf(values) / values.length;
}
