/** A cell of a table as text, for every way of showing tables. */

import type { Cell } from '../sections/section.js';
import { dateText, shortDate } from '../words/dates.js';
import { figureText, intervalText } from '../words/numbers.js';

/** How cells are written where tables differ. */
export interface CellStyle {
  /** Stands before what is to be done. */
  readonly box: string;
  /** What a name is called. */
  readonly called: (name: string) => string;
}

/** @returns the text without the unit of a figure; none for a bar */
export function cellText(cell: Cell, { box, called }: CellStyle): string {
  if (cell === null) return '-';
  if (typeof cell === 'string') return cell;
  switch (cell.kind) {
    case 'words':
      return cell.parts.map((part) => (typeof part === 'string' ? part : called(part.name))).join('');
    case 'figure': {
      const text = figureText(cell.value, cell.form);
      return cell.outOf === null ? text : `${text}/${figureText(cell.outOf, cell.form)}`;
    }
    case 'doubtful':
      return `(${figureText(cell.value, cell.form)})`;
    case 'task':
      return `${box} ${cell.text}`;
    case 'interval':
      return intervalText(cell, cell.form);
    case 'date':
      return cell.short ? shortDate(cell.iso) : dateText(cell.iso);
    case 'bar':
      return '';
  }
}
