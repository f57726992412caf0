/** Rows of the screen from pieces of text: how wide they are, cut, filled up, side by side. */

import { inOneLine } from '../../render/obeyed.js';
import { shortNames } from '../../render/short-names.js';
import { head, padEnd, padStart, widthOf } from '../../render/width.js';
import type { Meaning, Row, Span } from '../theme.js';

/** Columns below which a name has no middle to lose. */
const LEAST_MIDDLE = 4;

/** Columns of a name that is cut and still reads as one. */
export const FAIR_NAME = 6;

/**
 * A text in one line without control characters, of at most `width` columns; `more` stands where it was cut.
 */
export function cut(text: string, width: number, more = ''): string {
  const line = inOneLine(text, ' ');
  if (widthOf(line) <= width) return line;
  return `${head(line, width - widthOf(more))}${width < widthOf(more) ? '' : more}`;
}

/**
 * A name in one line of at most `width` columns: what is too long loses its middle, where `more` then stands.
 * @param among the names that it is to be told apart from, which are shortened alike
 */
export function named(name: string, width: number, more: string, among: readonly string[] = []): string {
  if (width < LEAST_MIDDLE) return cut(name, width, more);
  // In their own order, since those that no cut tells apart are numbered.
  const all = among.includes(name) ? among : [name, ...among];
  return shortNames(
    all.map((one) => inOneLine(one, ' ')),
    width,
    more,
  ).get(inOneLine(name, ' '))!;
}

/** A text cut or filled up with blanks to exactly `width` columns. */
export function fitted(text: string, width: number, more = ''): string {
  return padEnd(cut(text, width, more), width);
}

/** The same, with the blanks before it. */
export function fittedRight(text: string, width: number, more = ''): string {
  return padStart(cut(text, width, more), width);
}

export function span(text: string, meaning: Meaning = 'plain'): Span {
  return { text, meaning };
}

export function rowWidth(row: Row): number {
  return row.reduce((sum, { text }) => sum + widthOf(text), 0);
}

/** A row cut or filled up with blanks to exactly `width` columns. */
export function fittedRow(row: Row, width: number): Row {
  const spans: Span[] = [];
  let room = width;
  for (const { text, meaning } of row) {
    if (room === 0) break;
    const taken = cut(text, room);
    if (taken !== '') spans.push({ text: taken, meaning });
    room -= widthOf(taken);
    // A wide letter did not go into the last column: nothing may stand behind the gap.
    if (taken.length < text.length) break;
  }
  if (room > 0) spans.push(span(' '.repeat(room)));
  return spans;
}

/** One row on the left, another on the right; the right one goes if both have no room. */
export function apart(left: Row, right: Row, width: number): Row {
  const room = width - rowWidth(left) - rowWidth(right);
  return room < 1 ? left : [...left, span(' '.repeat(room)), ...right];
}

/** Blocks of rows side by side, each filled up to its width; as many rows as the highest. */
export function beside(
  blocks: readonly { readonly rows: readonly Row[]; readonly width: number }[],
  gap: number,
): Row[] {
  const height = Math.max(0, ...blocks.map(({ rows }) => rows.length));
  return Array.from({ length: height }, (_, y) =>
    blocks.flatMap(({ rows, width }, i) => [
      ...(i === 0 || gap === 0 ? [] : [span(' '.repeat(gap))]),
      ...fittedRow(rows[y] ?? [], width),
    ]),
  );
}

/** A block on the left and one on the right, which is `right` columns wide, in `width` columns. */
export function halves(
  blocks: readonly [left: readonly Row[], right: readonly Row[]],
  width: number,
  right: number,
  gap: number,
): Row[] {
  const widths = [width - right - gap, right];
  return beside(
    blocks.map((rows, i) => ({ rows, width: widths[i]! })),
    gap,
  );
}

/** A sign and what it means. */
export function mark(sign: string, meaning: Meaning, words: string): Row {
  return [span(sign, meaning), span(` ${words}`, 'faint')];
}

/** Puts signs one by one into a row; neighbours of one meaning become one piece. */
export class RowWriter {
  readonly #spans: Span[] = [];
  #text = '';
  #meaning: Meaning = 'plain';

  put(text: string, meaning: Meaning = 'plain'): void {
    if (meaning !== this.#meaning) {
      this.#close();
      this.#meaning = meaning;
    }
    this.#text += text;
  }

  row(): Row {
    this.#close();
    return this.#spans;
  }

  #close(): void {
    if (this.#text !== '') this.#spans.push({ text: this.#text, meaning: this.#meaning });
    this.#text = '';
  }
}
