/** A table of a section as a table of the page: names in full, bars drawn. */

import type { Bar, Cell, Key, Table } from '../../sections/section.js';
import { type CellStyle, cellText } from '../cell.js';
import type { Element, Elements } from './elements.js';

/** Size of a bar [px]. */
const BAR = { width: 120, height: 12 };

/** Letters of a first column that is not broken into lines. */
const SHORT = 28;

/** @param caption what it is of; read aloud, and not shown where a heading says it */
export function htmlTable(make: Elements, { head, rows, bars }: Table, caption: string): Element | null {
  if (rows.length === 0) return null;
  const texts = rows[0]!.map((_, c) => rows.every((row) => isText(row[c]!)));
  const sided = (c: number): string | null => (c === 0 || texts[c] ? null : 'figure');
  return make.of(
    'div',
    // What is wider than a phone is moved by touch or by keys.
    { class: 'table', role: 'group', tabindex: 0, 'aria-label': caption },
    make.of(
      'table',
      { class: rows.every(([first]) => textOf(first!).length <= SHORT) ? 'short' : null },
      make.of('caption', {}, caption),
      head === undefined
        ? null
        : make.of(
            'thead',
            {},
            make.of(
              'tr',
              {},
              ...head.map((cell, c) =>
                textOf(cell).trim() === ''
                  ? make.of('td', {})
                  : make.of('th', { scope: 'col', class: sided(c) }, textOf(cell).replaceAll('\n', ' ')),
              ),
            ),
          ),
      make.of(
        'tbody',
        {},
        ...rows.map((row) =>
          make.of(
            'tr',
            {},
            ...row.map((cell, c) =>
              c === 0 && textOf(cell).trim() !== ''
                ? make.of('th', { scope: 'row' }, textOf(cell))
                : make.of('td', { class: sided(c) }, isBar(cell) ? barOf(make, cell) : textOf(cell)),
            ),
          ),
        ),
      ),
    ),
    bars === undefined ? null : keyList(make, bars),
  );
}

/** What signs stand for; those of bars as they are drawn. */
export function keyList(make: Elements, { signs }: Key): Element {
  return make.of(
    'ul',
    { class: 'legend' },
    ...signs.map(([sign, meaning]) =>
      make.of(
        'li',
        {},
        BARS.has(sign) ? barOf(make, BARS.get(sign)!, 22) : make.of('b', {}, sign),
        ` ${meaning}`,
      ),
    ),
  );
}

/** The two signs of a bar. */
const BARS: ReadonlyMap<string, Bar> = new Map([
  ['=', { kind: 'bar', from: 0, to: 1, upTo: 1 }],
  ['-', { kind: 'bar', from: 0, to: 0, upTo: 1 }],
]);

function barOf(make: Elements, { from, to, upTo }: Bar, width = BAR.width): Element {
  const { height } = BAR;
  const [low, high] = [Math.min(from, to), Math.max(from, to)];
  const piece = (left: number, right: number, fill: string): Element =>
    make.svg('rect', {
      x: round(left * (width - 1) + 0.5),
      y: 0.5,
      // One that is too small to see is a line in its place.
      width: round(Math.max(0.5, (right - left) * (width - 1))),
      height: height - 1,
      fill,
      stroke: 'var(--ink)',
      'stroke-width': 0.75,
    });
  return make.svg(
    'svg',
    { class: 'bar', width, height, 'aria-hidden': 'true', focusable: 'false' },
    upTo > high ? piece(high, upTo, 'var(--soft)') : null,
    high > low || upTo <= high ? piece(low, high, 'var(--growing)') : null,
  );
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}

function isText(cell: Cell): boolean {
  return (
    cell === null ||
    typeof cell === 'string' ||
    cell.kind === 'words' ||
    cell.kind === 'task' ||
    cell.kind === 'bar'
  );
}

function isBar(cell: Cell): cell is Bar {
  return cell !== null && typeof cell !== 'string' && cell.kind === 'bar';
}

const STYLE: CellStyle = { box: '\u2610', called: (name) => name };

function textOf(cell: Cell): string {
  const text = cellText(cell, STYLE);
  const unit = cell !== null && typeof cell !== 'string' && cell.kind === 'figure' ? cell.unit : '';
  return unit === '' ? text : `${text} ${unit}`;
}
