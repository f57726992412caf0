/** What the views that still lay out their own lines have in common. */

import { shortNames } from '../render/short-names.js';
import { wrapped } from '../render/wrap.js';

/** Columns of a text: it fits into the smallest usual terminal. */
export const WIDTH = 80;

/** Rows as columns: the first column to the left, the others to the right. */
export function columns(rows: readonly (readonly string[])[], gap = 2): string[] {
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map((row) => row[i]!.length)));
  return rows.map((row) =>
    row
      .map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!) : cell.padStart(widths[i]!)))
      .join(' '.repeat(gap))
      .trimEnd(),
  );
}

/** Columns, closer together if they would be wider than `width`. */
export function fitting(rows: readonly (readonly string[])[], width = WIDTH): string[] {
  const lines = columns(rows);
  return lines.some((line) => line.length > width) ? columns(rows, 1) : lines;
}

/** Lines further to the right. */
export function indented(lines: readonly string[], by = 2): string[] {
  return lines.map((line) => `${' '.repeat(by)}${line}`);
}

/** Longest name that is told in full in a table, and the shortest that is made of it where room is scarce. */
const MOST_NAME = 24;
const LEAST_NAME = 8;

/**
 * A table with names in it, as wide as it may be: first the columns come closer together, then the names get shorter.
 * @param names all that stand in it
 * @param rows of the table, given what each name is called in it
 */
export function tableOfNames(
  names: readonly string[],
  rows: (called: (name: string) => string) => readonly (readonly string[])[],
  { width = WIDTH, most = MOST_NAME }: { readonly width?: number; readonly most?: number } = {},
): string[] {
  for (let letters = most; ; letters--) {
    const short = shortNames(names, letters);
    const lines = fitting(
      rows((name) => short.get(name)!),
      width,
    );
    if (letters <= LEAST_NAME || lines.every((line) => line.length <= width)) return lines;
  }
}

/** A sentence in lines, each after `indent`. */
export function wrap(text: string, width: number, indent = '', whole = false): string {
  return wrapped(text, width - indent.length, whole)
    .map((line) => indent + line)
    .join('\n');
}
