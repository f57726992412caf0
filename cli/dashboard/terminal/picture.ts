/**
 * The picture that stands on the screen, and what must be written to make another one of it: only the pieces of rows that differ.
 *
 * ink writes whole frames, or whole rows with `incrementalRendering`; moving on by a day then costs 2.5 KB at 120 x 40, because a few
 * signs change in each of many rows. Somebody who looks from afar, over a slow line, feels that.
 */

import { type Cell, cellsOf, written } from './cells.js';

/** Cells alike that are written all the same, if they lie between two that differ: moving the cursor takes as many bytes. */
const NEAR = 5;

/** Control sequences of ECMA-48; rows and columns count from 1. */
const place = (row: number, column: number): string => `\u001b[${row};${column}H`;
const along = (column: number): string => `\u001b[${column}G`;
const ERASE_ROW = '\u001b[2K';
const ERASE_REST = '\u001b[K';
const ERASE_BELOW = '\u001b[J';

/** A row that stands on the screen. */
interface Standing {
  readonly text: string;
  /** Taken apart when the row is first compared with another one; null if that is no use. */
  cells?: readonly Cell[] | null;
}

const EMPTY: Standing = { text: '', cells: [] };

export class Picture {
  #rows: readonly Standing[] = [];

  /** @returns what turns the screen from the last picture into this one; empty if they are alike */
  change(rows: readonly string[]): string {
    const before = this.#rows;
    // A row that stays is not taken apart, nor one twice that changes often.
    this.#rows = rows.map((text, y) => (before[y]?.text === text ? before[y] : { text }));
    let changes = '';
    for (let y = 0; y < Math.max(before.length, rows.length); y++) {
      const [was, is] = [before[y] ?? EMPTY, this.#rows[y] ?? EMPTY];
      if (was.text !== is.text) changes += changedRow(was, is, y + 1);
    }
    return changes;
  }

  /** @returns what draws this picture, the last one if left out, on whatever stands on the screen */
  whole(rows: readonly string[] = this.#rows.map(({ text }) => text)): string {
    this.#rows = rows.map((text) => ({ text }));
    const drawn = rows.map((row, y) => `${place(y + 1, 1)}${ERASE_ROW}${row}`).join('');
    return `${drawn}${place(rows.length + 1, 1)}${ERASE_BELOW}`;
  }
}

function apart(row: Standing): readonly Cell[] | null {
  if (row.cells === undefined) row.cells = cellsOf(row.text);
  return row.cells;
}

function changedRow(was: Standing, is: Standing, row: number): string {
  const [before, after] = [apart(was), apart(is)];
  // Terminals differ in where they put what stands behind a letter of another width.
  if (before === null || after === null) return `${place(row, 1)}${ERASE_ROW}${is.text}`;
  const isSame = (x: number): boolean => isAlike(before[x], after[x]!);
  const columns = after.length;
  let changes = '';
  const move = (x: number): string => (changes === '' ? place(row, x + 1) : along(x + 1));
  for (let x = 0; x < columns; ) {
    if (isSame(x)) {
      x++;
      continue;
    }
    let end = x + 1;
    for (let next = end; next < columns && next - end <= NEAR; next++) if (!isSame(next)) end = next + 1;
    changes += `${move(x)}${written(after.slice(x, end))}`;
    x = end;
  }
  return before.length > columns ? `${changes}${move(columns)}${ERASE_REST}` : changes;
}

/** Beyond the end of a row stand blanks. */
function isAlike(one: Cell | undefined, other: Cell): boolean {
  if (one === undefined) return other.letter === ' ' && other.look.name === '';
  return one.letter === other.letter && one.look.name === other.look.name;
}
