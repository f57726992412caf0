/**
 * A table as lines of text: texts to the left, figures to the right.
 *
 * Where there is little room, bars get shorter; then the columns come closer together; then names lose their middle; then bars
 * go; then the words of the first column take several lines; and at last some of the columns stand below the others. What
 * stands last in words may always take several lines.
 */

import type { Bar, Cell, Figure, Table } from '../sections/section.js';
import { MOST_NAME } from '../sections/section.js';
import { dateText, shortDate } from '../words/dates.js';
import { figureText, intervalText } from '../words/numbers.js';
import { barText } from './bar.js';
import { keyLines } from './key.js';
import { shortNames } from './short-names.js';
import { padEnd, padStart, widthOf } from './width.js';
import { wrapped } from './wrap.js';

/** The shortest that is made of a name. */
const LEAST_NAME = 8;
/** Columns between two columns of the table. */
const GAPS = [2, 1] as const;
/** Most and fewest places of a bar. */
const MOST_BAR = 24;
const LEAST_BAR = 8;
/** Columns that words are left before they take several lines. */
const LEAST_WORDS = 24;
/** The same of the first column, where all others have room beside it then; and where not even one has otherwise. */
const NARROW_FIRST = 20;
const LEAST_FIRST = 12;

export function tableLines(table: Table, width: number): string[] {
  if (table.rows.length === 0) return [];
  const { blocks, gap, bar, columns } = bestLayout(table, width);
  const lines = blocks.flatMap((block, b) => [...(b === 0 ? [] : ['']), ...blockLines(columns, block, gap)]);
  return table.bars === undefined || bar === 0 ? lines : [...lines, ...keyLines(table.bars, width)];
}

interface Layout {
  /** Which columns stand side by side, and how wide each is. */
  readonly blocks: readonly (readonly Place[])[];
  readonly gap: number;
  /** Places of a bar; 0: there are none. */
  readonly bar: number;
  readonly columns: readonly Column[];
  /** Blocks, and one more if the first column had to give way too. */
  readonly cost: number;
}

interface Place {
  readonly column: number;
  readonly width: number;
}

/** A column in words. */
interface Column {
  readonly head: readonly string[];
  readonly cells: readonly (string | Bar)[];
  readonly left: boolean;
  /** Whether there are texts only in it, which may be broken into lines. */
  readonly words: boolean;
  /** Columns that it takes; 0 if it holds bars. */
  readonly width: number;
}

/** The cheapest, and of these the first in the order of what gives way. */
function bestLayout(table: Table, width: number): Layout {
  const names = [...(table.head ?? []), ...table.rows.flat()].flatMap(namesIn);
  const longest = Math.min(MOST_NAME, Math.max(LEAST_NAME, ...names.map(widthOf)));
  let best: Layout | null = null;
  for (const bar of hasBars(table) ? [LEAST_BAR, 0] : [0]) {
    for (let letters = longest; letters >= LEAST_NAME; letters--) {
      const columns = columnsOf(table, shortNames(names, letters));
      for (const gap of GAPS) {
        const layout = laidOut(columns, width, gap, bar);
        if (best === null || layout.cost < best.cost) best = layout;
        if (best.cost === 1) return best;
      }
    }
  }
  return squeezed(columnsOf(table, shortNames(names, LEAST_NAME)), width) ?? best!;
}

/** All columns side by side, the first as narrow as that takes; null if that is too narrow. */
function squeezed([first, ...others]: readonly Column[], width: number): Layout | null {
  const gap = GAPS.at(-1)!;
  const room = others.reduce((left, column) => left - gap - column.width, width);
  if (!first!.words || room < NARROW_FIRST) return null;
  const columns = [{ ...first!, width: Math.min(first!.width, room) }, ...others];
  return laidOut(columns, width, gap, 0);
}

function laidOut(columns: readonly Column[], width: number, gap: number, bar: number): Layout {
  const blocks: Place[][] = [];
  const first = columns[0]!;
  const leastFirst = first.words ? Math.min(first.width, LEAST_FIRST) : first.width;
  // Nothing may be so wide that the first column has no room beside it.
  const most = width - gap - leastFirst;
  let squeezed = false;
  let room = 0;
  for (let column = 1; column < columns.length; column++) {
    const { width: whole, words, cells } = columns[column]!;
    const bars = cells.some(isBar);
    if (bars && bar === 0) continue;
    const last = words && column === columns.length - 1;
    const least = bars ? bar : Math.min(most, last ? Math.min(whole, LEAST_WORDS) : whole);
    if (blocks.length === 0 || gap + least > room) {
      const beside = Math.min(first.width, width - gap - least);
      squeezed ||= beside < first.width;
      blocks.push([{ column: 0, width: beside }]);
      room = width - beside;
    }
    const taken = bars ? Math.min(MOST_BAR, room - gap) : last ? Math.min(whole, room - gap) : least;
    blocks.at(-1)!.push({ column, width: taken });
    room -= gap + taken;
  }
  if (blocks.length === 0) blocks.push([{ column: 0, width: Math.min(first.width, width) }]);
  return { blocks, gap, bar, columns, cost: blocks.length + (squeezed ? 1 : 0) };
}

function blockLines(columns: readonly Column[], block: readonly Place[], gap: number): string[] {
  const heads = block.map(({ column, width }): Box => {
    const { head, left } = columns[column]!;
    return { lines: head.flatMap((line) => wrapped(line, width)), left, width };
  });
  const rows = columns[0]!.cells.map((_, row) =>
    block.map(({ column, width }): Box => {
      const { cells, left } = columns[column]!;
      const cell = cells[row]!;
      return { lines: isBar(cell) ? [barText(cell, width)] : wrapped(cell, width), left, width };
    }),
  );
  return [...beside(heads, gap, true), ...rows.flatMap((boxes) => beside(boxes, gap))];
}

/** The lines of a cell, and where they go. */
interface Box {
  readonly lines: readonly string[];
  readonly left: boolean;
  readonly width: number;
}

/** @param low whether those with fewer lines than others stand at the bottom */
function beside(boxes: readonly Box[], gap: number, low = false): string[] {
  const height = Math.max(...boxes.map(({ lines }) => lines.length));
  return Array.from({ length: height }, (_, y) =>
    boxes
      .map(({ lines, left, width }) => {
        const text = lines[low ? y - height + lines.length : y] ?? '';
        return left ? padEnd(text, width) : padStart(text, width);
      })
      .join(' '.repeat(gap))
      .trimEnd(),
  );
}

function columnsOf({ head, rows }: Table, called: Called): Column[] {
  return rows[0]!.map((_, c): Column => {
    const typed = rows.map((row) => row[c]!);
    const { texts, behind } = withUnits(typed, called);
    const heading = head === undefined ? [] : cellText(head[c]!, called).split('\n');
    const lines = heading.map((line) => line + ' '.repeat(behind));
    const words = typed.every((cell) => cell === null || isText(cell));
    return {
      head: lines,
      cells: texts.map((text, i) => {
        const cell = typed[i]!;
        return isBar(cell) ? cell : text;
      }),
      left: c === 0 || words || typed.every(isBar),
      words,
      width: Math.max(0, ...[...lines, ...texts].map(widthOf)),
    };
  });
}

/** The cells of a column; words behind its figures begin below each other, `behind` columns in all. */
function withUnits(cells: readonly Cell[], called: Called): { texts: string[]; behind: number } {
  const units = cells.map((cell) => (isFigure(cell) ? cell.unit : ''));
  const texts = cells.map((cell) => cellText(cell, called));
  const right = Math.max(...units.map(widthOf));
  if (right === 0) return { texts, behind: 0 };
  const left = Math.max(...texts.map(widthOf));
  return {
    texts: texts.map((text, i) => `${padStart(text, left)} ${padEnd(units[i]!, right)}`),
    behind: right + 1,
  };
}

/** What each name is called. */
type Called = ReadonlyMap<string, string>;

function cellText(cell: Cell, called: Called): string {
  if (cell === null) return '-';
  if (typeof cell === 'string') return cell;
  switch (cell.kind) {
    case 'words':
      return cell.parts.map((part) => (typeof part === 'string' ? part : called.get(part.name)!)).join('');
    case 'figure': {
      const text = figureText(cell.value, cell.form);
      return cell.outOf === null ? text : `${text}/${figureText(cell.outOf, cell.form)}`;
    }
    case 'doubtful':
      return `(${figureText(cell.value, cell.form)})`;
    case 'task':
      return `[ ] ${cell.text}`;
    case 'interval':
      return intervalText(cell, cell.form);
    case 'date':
      return cell.short ? shortDate(cell.iso) : dateText(cell.iso);
    case 'bar':
      return '';
  }
}

function namesIn(cell: Cell): string[] {
  if (cell === null || typeof cell === 'string' || cell.kind !== 'words') return [];
  return cell.parts.flatMap((part) => (typeof part === 'string' ? [] : [part.name]));
}

function isText(cell: Cell): boolean {
  return typeof cell === 'string' || cell?.kind === 'words';
}

function isFigure(cell: Cell): cell is Figure {
  return typeof cell === 'object' && cell?.kind === 'figure';
}

function isBar(cell: Cell | string): cell is Bar {
  return typeof cell === 'object' && cell?.kind === 'bar';
}

function hasBars({ rows }: Table): boolean {
  return rows.some((row) => row.some(isBar));
}
