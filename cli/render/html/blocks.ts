/** Sections as parts of a page, with headings of their depth. */

import type { Block, Section } from '../../sections/section.js';
import { figureWith } from './charts/chart.js';
import { planeMarks } from './charts/plane.js';
import type { Element, Elements } from './elements.js';
import { htmlTable, keyList } from './table.js';

/** Headings of a page go no deeper. */
const DEEPEST = 6;

/** @param depth of its heading, 2 below the page's own @param around title of what it is a part of */
export function htmlSection(
  make: Elements,
  { title, blocks }: Section,
  depth: number,
  around: string,
): Element {
  const text = title === null ? null : typeof title === 'string' ? title : title.text;
  const inside = (block: Block): Element | null => htmlBlock(make, block, depth, text ?? around);
  if (text === null) return make.of('div', {}, ...blocks.map(inside));
  return make.of('section', {}, make.of(`h${Math.min(DEEPEST, depth)}`, {}, text), ...blocks.map(inside));
}

function htmlBlock(make: Elements, block: Block, depth: number, around: string): Element | null {
  if (typeof block === 'string') return make.of('p', {}, block);
  switch (block.kind) {
    case 'section':
      return htmlSection(make, block, depth + 1, around);
    case 'whole':
      return make.of('p', {}, block.text);
    case 'command':
      return make.of('pre', { tabindex: 0 }, make.of('code', {}, block.text));
    case 'code': {
      const lines = block.lines.flatMap((line) => [line, make.of('br', {})]);
      return make.of('pre', { tabindex: 0 }, make.of('code', {}, ...lines));
    }
    case 'table':
      return htmlTable(make, block, around);
    case 'key':
      return keyList(make, block);
    case 'plane': {
      const text = `${block.marks.length} marks; what each sign stands for is told below.`;
      const draw = (width: number) => planeMarks(block, width);
      return figureWith(make, { title: around, text, draw, below: [] }, true);
    }
  }
}
