/**
 * A row of text with escape codes, cell by cell, and back again.
 *
 * What the codes mean and which are needed from one look to the next is told by `@alcalzone/ansi-tokenize`, which ink draws with; the
 * letters between them are told apart here, since most rows have none that takes more than one code unit: the package asks for
 * grapheme clusters throughout, which took a fifth of the time of a season that runs.
 */

import {
  type AnsiCode,
  ansiCodesToString,
  diffAnsiCodes,
  reduceAnsiCodesIncremental,
  tokenize,
} from '@alcalzone/ansi-tokenize';
import { isNarrow, lettersOf, widthOf } from '../../render/width.js';

/** How letters look. */
interface Look {
  readonly codes: AnsiCode[];
  /** The same for two looks that are alike. */
  readonly name: string;
}

export interface Cell {
  readonly letter: string;
  readonly look: Look;
}

const USUAL: Look = { codes: [], name: '' };

/** Select Graphic Rendition, ECMA-48. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: escape sequences begin with one
const CODES = /((?:\u001b\[[\d;]*m)+)/;

const INVERSE = '\u001b[7m';

/** The looks that codes lead to, by those before and the codes: a dashboard has few, so all are kept. */
const known = new Map<string, Look>();

/** The cells of a row; null if one of its letters does not take one column. */
export function cellsOf(row: string): Cell[] | null {
  const cells: Cell[] = [];
  let look = USUAL;
  // Every second piece is codes.
  for (const [i, piece] of row.split(CODES).entries()) {
    if (i % 2 === 1) {
      look = changedBy(look, piece);
      continue;
    }
    const letters = lettersOf(piece);
    if (!isNarrow(piece) && letters.some((letter) => widthOf(letter) !== 1)) return null;
    for (const letter of letters) cells.push({ letter, look: letter === ' ' ? blank(look) : look });
  }
  return cells;
}

/** How a blank looks: nothing of its colour is seen, unless it is turned round. */
function blank(look: Look): Look {
  return isInverse(look) ? look : USUAL;
}

function isInverse({ name }: Look): boolean {
  return name.includes(INVERSE);
}

function changedBy(look: Look, codes: string): Look {
  const key = `${look.name} ${codes}`;
  let changed = known.get(key);
  if (changed === undefined) {
    const reduced = reduceAnsiCodesIncremental(
      look.codes,
      tokenize(codes).filter((token) => token.type === 'ansi'),
    );
    changed = reduced.length === 0 ? USUAL : { codes: reduced, name: ansiCodesToString(reduced) };
    known.set(key, changed);
  }
  return changed;
}

/** Cells as text, with the codes that it takes from one to the next and, at the end, back to the usual look. */
export function written(cells: readonly Cell[]): string {
  let text = '';
  let look = USUAL;
  const turn = (to: Look): void => {
    if (to.name !== look.name) text += ansiCodesToString(diffAnsiCodes(look.codes, to.codes));
    look = to;
  };
  for (const cell of cells) {
    if (cell.letter !== ' ' || isInverse(look) || isInverse(cell.look)) turn(cell.look);
    text += cell.letter;
  }
  turn(USUAL);
  return text;
}
