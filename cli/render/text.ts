/** Sections as text of any width. */

import type { Block, Section } from '../sections/section.js';
import { keyLines } from './key.js';
import { planeLines } from './plane.js';
import { tableLines } from './table.js';
import { widthOf } from './width.js';
import { wrapped } from './wrap.js';

/** Columns of a text: it fits into the smallest usual terminal. */
const WIDTH = 80;
/** Columns by which what belongs to a title stands further to the right. */
const INDENT = 2;
/** The same of a line of a scenario file that goes on. */
const GOES_ON = 4;

/** @param width at least 40 */
export function textOf(sections: readonly Section[], width = WIDTH): string {
  return `${sections.map((section) => sectionLines(section, width).join('\n')).join('\n\n')}\n`;
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
    case 'code':
      return block.lines.flatMap((line) => codeLines(line, width));
    case 'table':
      return tableLines(block, width);
    case 'key':
      return keyLines(block, width);
    case 'plane':
      return planeLines(block, width);
  }
}

/** A line of YAML; one that is too long goes on after a comma. */
function codeLines(line: string, width: number): string[] {
  const lines: string[] = [];
  for (const part of line.split(/(?<=,) /)) {
    const last = lines.at(-1);
    if (last !== undefined && widthOf(last) + 1 + widthOf(part) <= width)
      lines[lines.length - 1] = `${last} ${part}`;
    else lines.push(last === undefined ? part : ' '.repeat(GOES_ON) + part);
  }
  return lines;
}
