/** Numbers put in the order of a figure that each of them has, equal ones as they were; nothing is allocated. */

/** Below this many they are sorted by insertion; above, by merging. Both are stable. */
const INSERTION_LIMIT = 24;

/**
 * @param order its first `n` entries are sorted, in place
 * @param scratch at least as long
 * @param times by the numbers in `order`: what they are sorted by
 */
export function sortStably(order: Int32Array, scratch: Int32Array, times: Float64Array, n: number): void {
  if (n <= INSERTION_LIMIT) sortByInsertion(order, times, 0, n);
  else sortByMerging(order, scratch, times, n);
}

/**
 * The places of some figures that lie evenly between 0 and 1, the smallest first, equal ones as they were. Faster than
 * `sortStably`: nearly every figure is put where it belongs at once.
 */
export function placesInOrder(figures: Float64Array): Int32Array {
  const n = figures.length;
  const next = new Int32Array(n + 1);
  const cell = (i: number): number => Math.floor(figures[i]! * n);
  for (let i = 0; i < n; i++) next[cell(i) + 1]!++;
  for (let i = 1; i <= n; i++) next[i]! += next[i - 1]!;
  const places = new Int32Array(n);
  for (let i = 0; i < n; i++) places[next[cell(i)]!++] = i;
  sortByInsertion(places, figures, 0, n);
  return places;
}

function sortByInsertion(order: Int32Array, times: Float64Array, from: number, to: number): void {
  for (let i = from + 1; i < to; i++) {
    const id = order[i]!;
    const time = times[id]!;
    let j = i - 1;
    while (j >= from && times[order[j]!]! > time) {
      order[j + 1] = order[j]!;
      j--;
    }
    order[j + 1] = id;
  }
}

/** Bottom-up merge sort: runs of INSERTION_LIMIT are sorted by insertion, then merged in pairs. Stable. */
function sortByMerging(order: Int32Array, scratch: Int32Array, times: Float64Array, n: number): void {
  for (let from = 0; from < n; from += INSERTION_LIMIT) {
    sortByInsertion(order, times, from, Math.min(n, from + INSERTION_LIMIT));
  }
  for (let width = INSERTION_LIMIT; width < n; width *= 2) {
    for (let from = 0; from + width < n; from += 2 * width) {
      mergeRuns(order, scratch, times, from, from + width, Math.min(n, from + 2 * width));
    }
  }
}

function mergeRuns(
  order: Int32Array,
  scratch: Int32Array,
  times: Float64Array,
  from: number,
  middle: number,
  to: number,
): void {
  // In order already: the usual case when many events share one time.
  if (times[order[middle - 1]!]! <= times[order[middle]!]!) return;
  for (let i = from; i < middle; i++) scratch[i] = order[i]!;
  let left = from;
  let right = middle;
  let out = from;
  while (left < middle && right < to) {
    if (times[order[right]!]! < times[scratch[left]!]!) order[out++] = order[right++]!;
    else order[out++] = scratch[left++]!;
  }
  while (left < middle) order[out++] = scratch[left++]!;
}
