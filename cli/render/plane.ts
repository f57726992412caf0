/** Marks on a plane as lines of text, with what its axes go from and to. */

import type { Axis, Plane } from '../sections/section.js';
import { figureText } from '../words/numbers.js';
import { padEnd, padStart, widthOf } from './width.js';

/** Places of the plane, where there are so many. */
const COLUMNS = 60;
const ROWS = 12;

export function planeLines({ marks, x, y }: Plane, width: number): string[] {
  const [top, bottom] = [figureText(y.most, y.form), figureText(y.least, y.form)];
  const margin = Math.max(widthOf(top), widthOf(bottom));
  const columns = Math.max(1, Math.min(COLUMNS, width - margin - 2));
  const rows = Array.from({ length: ROWS }, () => new Array<string>(columns).fill(' '));
  for (const mark of marks) rows[ROWS - 1 - place(mark.y, y, ROWS)]![place(mark.x, x, columns)] = mark.sign;
  return [
    ...rows.map((places, row) => {
      const label = row === 0 ? top : row === ROWS - 1 ? bottom : '';
      return `${padStart(label, margin)} |${places.join('')}`.trimEnd();
    }),
    `${' '.repeat(margin)} +${'-'.repeat(columns)}`,
    `${' '.repeat(margin + 2)}${foot(x, columns)}`,
  ];
}

function place(value: number, { least, most }: Axis, places: number): number {
  return Math.round(((value - least) / (most - least || 1)) * (places - 1));
}

/** From where to where the axis goes, and in the middle what is told along it, where there is room. */
function foot({ least, most, form, label }: Axis, width: number): string {
  const [left, right] = [figureText(least, form), figureText(most, form)];
  const space = width - widthOf(left) - widthOf(right);
  const room = widthOf(label) + 2 > space ? '' : label;
  return `${left}${padEnd(padStart(room, Math.floor((space + widthOf(room)) / 2)), space)}${right}`;
}
