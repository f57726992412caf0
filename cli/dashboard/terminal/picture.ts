/**
 * The picture that stands on the screen, and what must be written to make another one of it: only the pieces of rows that differ.
 *
 * ink writes whole frames, or whole rows with `incrementalRendering`; moving on by a day then costs 2.5 KB at 120 x 40, because a few
 * signs change in each of many rows. Somebody who looks from afar, over a slow line, feels that.
 */

import {
  type StyledChar,
  styledCharsFromTokens,
  styledCharsToString,
  tokenize,
} from '@alcalzone/ansi-tokenize';
import { widthOf } from '../../render/width.js';

/** Cells alike that are written all the same, if they lie between two that differ: moving the cursor takes as many bytes. */
const NEAR = 5;
const BLANK: StyledChar = { type: 'char', value: ' ', fullWidth: false, styles: [] };

/** Control sequences of ECMA-48; rows and columns count from 1. */
const place = (row: number, column: number): string => `\u001b[${row};${column}H`;
const along = (column: number): string => `\u001b[${column}G`;
const ERASE_ROW = '\u001b[2K';
const ERASE_REST = '\u001b[K';
const ERASE_BELOW = '\u001b[J';

export class Picture {
  #rows: readonly string[] = [];

  /** @returns what turns the screen from the last picture into this one; empty if they are alike */
  change(rows: readonly string[]): string {
    const before = this.#rows;
    this.#rows = rows;
    let written = '';
    for (let y = 0; y < Math.max(before.length, rows.length); y++) {
      const [was, is] = [before[y] ?? '', rows[y] ?? ''];
      if (was !== is) written += changedRow(was, is, y + 1);
    }
    return written;
  }

  /** @returns what draws this picture, the last one if left out, on whatever stands on the screen */
  whole(rows: readonly string[] = this.#rows): string {
    this.#rows = rows;
    const drawn = rows.map((row, y) => `${place(y + 1, 1)}${ERASE_ROW}${row}`).join('');
    return `${drawn}${place(rows.length + 1, 1)}${ERASE_BELOW}`;
  }
}

function changedRow(was: string, is: string, row: number): string {
  const [before, after] = [cellsOf(was), cellsOf(is)];
  // Terminals differ in where they put what stands behind a letter of another width.
  if (before === null || after === null) return `${place(row, 1)}${ERASE_ROW}${is}`;
  const isSame = (x: number): boolean => alike(before[x] ?? BLANK, after[x]!);
  const columns = after.length;
  let written = '';
  const move = (x: number): string => (written === '' ? place(row, x + 1) : along(x + 1));
  for (let x = 0; x < columns; ) {
    if (isSame(x)) {
      x++;
      continue;
    }
    let end = x + 1;
    for (let next = end; next < columns && next - end <= NEAR; next++) if (!isSame(next)) end = next + 1;
    written += `${move(x)}${styledCharsToString(after.slice(x, end))}`;
    x = end;
  }
  return before.length > columns ? `${written}${move(columns)}${ERASE_REST}` : written;
}

/** The letters of a row with their colours; null if one of them does not take one column. */
function cellsOf(row: string): StyledChar[] | null {
  const cells = styledCharsFromTokens(tokenize(row));
  return cells.every(({ value }) => widthOf(value) === 1) ? cells : null;
}

function alike(one: StyledChar, other: StyledChar): boolean {
  return (
    one.value === other.value &&
    one.styles.length === other.styles.length &&
    one.styles.every(({ code }, i) => code === other.styles[i]!.code)
  );
}
