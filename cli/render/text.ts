/** Sections as text of any width. */

import type { Block, Section } from '../sections/section.js';
import { unbroken } from './obeyed.js';
import { planeLines } from './plane.js';
import { keyLines, tableLines } from './table.js';
import { packed, wrapped } from './wrap.js';

/** Columns of a text: it fits into the smallest usual terminal. */
const WIDTH = 80;
/** Columns by which what belongs to a title stands further to the right. */
const INDENT = 2;
/** Before what a line of a scenario file goes on with. */
const GOES_ON = '    ';

/** @param width at least 40 */
export function textOf(sections: readonly Section[], width = WIDTH): string {
  const lines = (section: Section): string[] => sectionLines(section, width).map(unbroken);
  return `${sections.map((section) => lines(section).join('\n')).join('\n\n')}\n`;
}

/** The same as a message, whose sentences are not broken and which ends without a line break. */
export function messageOf(sections: readonly Section[]): string {
  return textOf(sections, Number.POSITIVE_INFINITY).slice(0, -1);
}

function sectionLines({ title, blocks, apart }: Section, width: number): string[] {
  if (title === null) return blocks.flatMap((block) => blockLines(block, width));
  const inside = blocks.flatMap((block, i) => [
    ...(apart && i > 0 ? [''] : []),
    ...blockLines(block, width - INDENT),
  ]);
  const titleLines = typeof title === 'string' ? wrapped(title, width) : wrapped(title.text, width, true);
  return [...titleLines, ...inside.map((line) => (line === '' ? '' : ' '.repeat(INDENT) + line))];
}

function blockLines(block: Block, width: number): string[] {
  if (typeof block === 'string') return wrapped(block, width);
  switch (block.kind) {
    case 'section':
      return sectionLines(block, width);
    case 'whole':
      return wrapped(block.text, width, true);
    case 'command':
      return [block.text];
    case 'code':
      return block.lines.flatMap((line) => packed(line.split(/(?<=,) /), width, ' ', GOES_ON));
    case 'table':
      return tableLines(block, width);
    case 'key':
      return keyLines(block, width);
    case 'plane':
      return planeLines(block, width);
  }
}
