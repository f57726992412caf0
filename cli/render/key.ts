/** What signs stand for, as lines of text: as many in a line as fit. */

import type { Key } from '../sections/section.js';
import { widthOf } from './width.js';
import { wrapped } from './wrap.js';

const BETWEEN = '  ';

export function keyLines({ signs }: Key, width: number): string[] {
  const lines: string[] = [];
  for (const [sign, meaning] of signs) {
    const text = `${sign} ${meaning}`;
    const last = lines.at(-1);
    if (last !== undefined && widthOf(last + BETWEEN + text) <= width)
      lines[lines.length - 1] = last + BETWEEN + text;
    else lines.push(...wrapped(text, width));
  }
  return lines;
}
