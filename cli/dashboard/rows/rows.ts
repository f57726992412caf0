/** Rows of the screen from pieces of text: how wide they are, cut, filled up, side by side. */

import type { Meaning, Piece, Row } from '../theme.js';

/**
 * First and last of the code points that take two columns (Unicode, East Asian Width W and F), without emoji.
 */
const WIDE: readonly (readonly [number, number])[] = [
  [0x1100, 0x115f],
  [0x2329, 0x232a],
  [0x2e80, 0x303e],
  [0x3041, 0x33ff],
  [0x3400, 0x4dbf],
  [0x4e00, 0xa4cf],
  [0xa960, 0xa97c],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe10, 0xfe19],
  [0xfe30, 0xfe6f],
  [0xff01, 0xff60],
  [0xffe0, 0xffe6],
  [0x16fe0, 0x18cff],
  [0x1aff0, 0x1b2ff],
  [0x1f200, 0x1f2ff],
  [0x20000, 0x3fffd],
];

const LETTERS = new Intl.Segmenter('en', { granularity: 'grapheme' });
/** One column each, whatever stands beside them: ASCII, Latin, and the signs that we draw with. */
const NARROW = /^[ -~\u00a0-\u02ff\u2010-\u2027\u2030-\u205e\u2190-\u21ff\u2500-\u25fc]*$/;
/** Controls, marks on other letters, and the later parts of Korean syllables. */
const WITHOUT_WIDTH = /^[\p{Cc}\p{Cf}\p{Mn}\p{Me}\p{Default_Ignorable_Code_Point}\u1160-\u11ff]/u;
const EMOJI = /^\p{Emoji_Presentation}|\ufe0f|^\p{Regional_Indicator}{2}/u;
// biome-ignore lint/suspicious/noControlCharactersInRegex: those are what must not reach the terminal
const CONTROLS = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e\u2066-\u2069]/g;

/**
 * Columns that a text takes on the screen, as terminals count them: code point by code point, but an emoji as
 * one.
 */
export function widthOf(text: string): number {
  if (NARROW.test(text)) return text.length;
  let width = 0;
  for (const { segment } of LETTERS.segment(text)) width += letterWidth(segment);
  return width;
}

function letterWidth(letter: string): number {
  if (EMOJI.test(letter)) return 2;
  let width = 0;
  for (const sign of letter) {
    if (WITHOUT_WIDTH.test(sign)) continue;
    const code = sign.codePointAt(0)!;
    width += WIDE.some(([from, to]) => from <= code && code <= to) ? 2 : 1;
  }
  return width;
}

/**
 * A text in one line without control characters, of at most `width` columns; `more` stands where it was cut.
 */
export function cut(text: string, width: number, more = ''): string {
  const line = text.replace(CONTROLS, ' ');
  if (widthOf(line) <= width) return line;
  return `${head(line, width - widthOf(more))}${width < widthOf(more) ? '' : more}`;
}

/** As much of a text as goes into `width` columns. */
function head(text: string, width: number): string {
  if (NARROW.test(text)) return text.slice(0, Math.max(0, width));
  let taken = '';
  let room = width;
  for (const { segment } of LETTERS.segment(text)) {
    room -= letterWidth(segment);
    if (room < 0) break;
    taken += segment;
  }
  return taken;
}

/** A text cut or filled up with blanks to exactly `width` columns. */
export function fitted(text: string, width: number, more = ''): string {
  const line = cut(text, width, more);
  return line + ' '.repeat(Math.max(0, width - widthOf(line)));
}

/** The same, with the blanks before it. */
export function fittedRight(text: string, width: number, more = ''): string {
  const line = cut(text, width, more);
  return ' '.repeat(Math.max(0, width - widthOf(line))) + line;
}

export function piece(text: string, meaning: Meaning = 'plain'): Piece {
  return { text, meaning };
}

export function rowWidth(row: Row): number {
  return row.reduce((sum, { text }) => sum + widthOf(text), 0);
}

/** A row cut or filled up with blanks to exactly `width` columns. */
export function fittedRow(row: Row, width: number): Row {
  const pieces: Piece[] = [];
  let room = width;
  for (const { text, meaning } of row) {
    if (room === 0) break;
    const taken = cut(text, room);
    if (taken !== '') pieces.push({ text: taken, meaning });
    room -= widthOf(taken);
    // A wide letter did not go into the last column: nothing may stand behind the gap.
    if (taken.length < text.length) break;
  }
  if (room > 0) pieces.push(piece(' '.repeat(room)));
  return pieces;
}

/** One row on the left, another on the right; the right one goes if both have no room. */
export function apart(left: Row, right: Row, width: number): Row {
  const room = width - rowWidth(left) - rowWidth(right);
  return room < 1 ? left : [...left, piece(' '.repeat(room)), ...right];
}

/** Blocks of rows side by side, each filled up to its width; as many rows as the highest. */
export function beside(
  blocks: readonly { readonly rows: readonly Row[]; readonly width: number }[],
  gap: number,
): Row[] {
  const height = Math.max(0, ...blocks.map(({ rows }) => rows.length));
  return Array.from({ length: height }, (_, y) =>
    blocks.flatMap(({ rows, width }, i) => [
      ...(i === 0 || gap === 0 ? [] : [piece(' '.repeat(gap))]),
      ...fittedRow(rows[y] ?? [], width),
    ]),
  );
}

/** Puts signs one by one into a row; neighbours of one meaning become one piece. */
export class RowWriter {
  readonly #pieces: Piece[] = [];
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
    return this.#pieces;
  }

  #close(): void {
    if (this.#text !== '') this.#pieces.push({ text: this.#text, meaning: this.#meaning });
    this.#text = '';
  }
}
