/** Names that are shorter, and still told apart. */

import { head, tail, widthOf } from './width.js';

/**
 * The names of a table, none wider than `width`: what is too long loses its middle (`butterhea..reen`), and names that
 * differ stay different.
 *
 * All are cut at the same place: one third of what is left is the end of the name. If that makes two alike, another place is
 * taken that does not; if there is none, the end gives way to a number.
 * @param width at least 6, or at least 4 for a mark of one column
 * @param mark stands between the beginning and the end of a name that is too long
 * @returns what each name is called in the table
 */
export function shortNames(
  names: readonly string[],
  width: number,
  mark = '..',
): ReadonlyMap<string, string> {
  const all = [...new Set(names)];
  const long = all.filter((name) => widthOf(name) > width);
  const short = new Map(all.map((name) => [name, name]));
  if (long.length === 0) return short;
  const kept = width - mark.length;
  const usual = Math.floor(kept / 3);
  const ends = Array.from({ length: kept }, (_, end) => end).sort(
    (a, b) => Math.abs(a - usual) - Math.abs(b - usual),
  );
  for (const end of ends) {
    for (const name of long) short.set(name, `${head(name, kept - end)}${mark}${tail(name, end)}`);
    if (new Set(short.values()).size === all.length) return short;
  }
  const taken = new Set(all.filter((name) => !long.includes(name)));
  let number = 0;
  for (const name of long) {
    let numbered: string;
    do {
      const end = `${mark}${++number}`;
      numbered = `${head(name, width - end.length)}${end}`;
    } while (taken.has(numbered));
    short.set(name, numbered);
  }
  return short;
}
