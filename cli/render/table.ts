/**
 * A table as lines of text: texts to the left, figures to the right.
 *
 * Where there is little room, bars get shorter; then the columns come closer together; then names lose their middle; then bars
 * go; then the words of the first column take several lines; and at last some of the columns stand below the others. What
 * stands last in words may always take several lines.
 */

import type { Bar, Cell, Key, Table } from '../sections/section.js';
import { MOST_NAME } from '../sections/section.js';
import { barText } from './bar.js';
import { type CellStyle, cellText } from './cell.js';
import { shortNames } from './short-names.js';
import { padEnd, padStart, widthOf } from './width.js';
import { packed, wrapped } from './wrap.js';

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
  const { blocks, gap, bar } = bestLayout(table, width);
  const lines = blocks.flatMap((block, b) => [...(b === 0 ? [] : ['']), ...blockLines(block, gap)]);
  return table.bars === undefined || bar === 0 ? lines : [...lines, ...keyLines(table.bars, width)];
}

/** What signs stand for. */
export function keyLines({ signs }: Key, width: number): string[] {
  const meanings = signs.flatMap(([sign, meaning]) => wrapped(`${sign} ${meaning}`, width));
  return packed(meanings, width, ' '.repeat(GAPS[0]));
}

interface Layout {
  /** Columns side by side. */
  readonly blocks: readonly (readonly Place[])[];
  readonly gap: number;
  /** Fewest places of a bar; 0: there are none. */
  readonly bar: number;
  /** Blocks, and one more if the first column had to give way too. */
  readonly cost: number;
}

interface Place {
  readonly column: Column;
  readonly width: number;
}

/** The lines of a cell that is so many columns wide. */
type Drawn = (width: number) => string[];

interface Column {
  readonly head: Drawn;
  readonly cells: readonly Drawn[];
  readonly left: boolean;
  readonly bars: boolean;
  /** Whether there are texts only in it, which may be broken into lines. */
  readonly words: boolean;
  /** Columns that it takes; 0 if it holds bars. */
  readonly width: number;
}

/** Columns of the widest of any number of texts. */
function widest(texts: readonly string[]): number {
  return texts.reduce((most, text) => Math.max(most, widthOf(text)), 0);
}

/** The cheapest, and of these the first in the order of what gives way. */
function bestLayout(table: Table, width: number): Layout {
  const cells = [...(table.head ?? []), ...table.rows.flat()];
  const names = cells.flatMap(namesIn);
  const longest = Math.min(MOST_NAME, Math.max(LEAST_NAME, widest(names)));
  let best: Layout | null = null;
  for (const bar of cells.some(isBar) ? [LEAST_BAR, 0] : [0]) {
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
  return laidOut([{ ...first!, width: Math.min(first!.width, room) }, ...others], width, gap, 0);
}

function laidOut(columns: readonly Column[], width: number, gap: number, bar: number): Layout {
  const [first, ...others] = columns.filter(({ bars }) => !bars || bar > 0) as [Column, ...Column[]];
  const blocks: Place[][] = [];
  // Nothing may be so wide that the first column has no room beside it.
  const most = width - gap - (first.words ? Math.min(first.width, LEAST_FIRST) : first.width);
  let cost = 0;
  let room = 0;
  for (const column of others) {
    const last = column.words && column === columns.at(-1);
    const least = column.bars ? bar : Math.min(most, column.width, last ? LEAST_WORDS : most);
    if (blocks.length === 0 || gap + least > room) {
      const beside = Math.min(first.width, width - gap - least);
      if (beside < first.width) cost = 1;
      blocks.push([{ column: first, width: beside }]);
      room = width - beside;
    }
    const taken = column.bars
      ? Math.min(MOST_BAR, room - gap)
      : last
        ? Math.min(column.width, room - gap)
        : least;
    blocks.at(-1)!.push({ column, width: taken });
    room -= gap + taken;
  }
  if (others.length === 0) blocks.push([{ column: first, width: Math.min(first.width, width) }]);
  return { blocks, gap, bar, cost: cost + blocks.length };
}

function blockLines(block: readonly Place[], gap: number): string[] {
  const heads = block.map(({ column, width }) => column.head(width));
  const lines = Math.max(...heads.map((head) => head.length));
  // The last lines of the heads stand over the columns.
  const head = heads.map((one) => [...new Array<string>(lines - one.length).fill(''), ...one]);
  const rows = block[0]!.column.cells.map((_, row) =>
    block.map(({ column, width }) => column.cells[row]!(width)),
  );
  return [head, ...rows].flatMap((cells) => {
    const height = Math.max(...cells.map((cell) => cell.length));
    return Array.from({ length: height }, (_, y) =>
      block
        .map(({ column, width }, i) => (column.left ? padEnd : padStart)(cells[i]![y] ?? '', width))
        .join(' '.repeat(gap))
        .trimEnd(),
    );
  });
}

/** @param called what each name is called */
function columnsOf({ head, rows }: Table, called: ReadonlyMap<string, string>): Column[] {
  const style: CellStyle = { box: '[ ]', called: (name) => called.get(name)! };
  return rows[0]!.map((_, c): Column => {
    const cells = rows.map((row) => row[c]!);
    // Words behind the figures begin below each other.
    const units = cells.map((cell) => (isA('figure', cell) ? cell.unit : ''));
    const right = widest(units);
    const figures = cells.map((cell) => cellText(cell, style));
    const left = widest(figures);
    const texts =
      right === 0 ? figures : figures.map((text, i) => `${padStart(text, left)} ${padEnd(units[i]!, right)}`);
    const heading = head === undefined ? [] : cellText(head[c]!, style).split('\n');
    const over = heading.map((line) => (right === 0 ? line : line + ' '.repeat(right + 1)));
    const bars = cells.some(isBar);
    const words = cells.every((cell) => cell === null || typeof cell === 'string' || isA('words', cell));
    return {
      head: (width) => over.flatMap((line) => wrapped(line, width)),
      cells: cells.map(
        (cell, i) => (width) => (isBar(cell) ? [barText(cell, width)] : wrapped(texts[i]!, width)),
      ),
      left: c === 0 || words || bars,
      bars,
      words,
      width: widest([...over, ...texts]),
    };
  });
}

function namesIn(cell: Cell): string[] {
  if (!isA('words', cell)) return [];
  return cell.parts.flatMap((part) => (typeof part === 'string' ? [] : [part.name]));
}

type Typed = Exclude<Cell, string | null>;

function isA<Kind extends Typed['kind']>(kind: Kind, cell: Cell): cell is Extract<Typed, { kind: Kind }> {
  return cell !== null && typeof cell !== 'string' && cell.kind === kind;
}

function isBar(cell: Cell): cell is Bar {
  return isA('bar', cell);
}
