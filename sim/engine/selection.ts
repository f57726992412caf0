/**
 * The value of a rank without putting all of them into order (quickselect). A typed array's own `sort` takes several times as long, and for
 * some hundred values as much as a tenth of the season that they come from.
 * @param values reordered in place; all of them numbers
 * @param rank 0 for the lowest
 */
export function valueOfRank(values: Float64Array, rank: number): number {
  let first = 0;
  let last = values.length - 1;
  while (first < last) {
    const pivot = values[(first + last) >> 1]!;
    let low = first;
    let high = last;
    while (low <= high) {
      while (values[low]! < pivot) low++;
      while (values[high]! > pivot) high--;
      if (low > high) break;
      const value = values[low]!;
      values[low++] = values[high]!;
      values[high--] = value;
    }
    // Up to `high` lies what is at most the pivot, from `low` on what is at least that, and between them the pivot.
    if (rank <= high) last = high;
    else if (rank >= low) first = low;
    else break;
  }
  return values[rank]!;
}
