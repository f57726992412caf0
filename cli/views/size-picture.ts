/** Room against heads a week, as marks on a plane: where more room stops to pay is seen at a glance. */

import type { SizeResult } from '../../sim/study/size/size.js';
import { countText } from '../words/numbers.js';
import { type Mark, plane } from './pictures.js';
import { headsText, KNEE, PRESENT } from './size-words.js';

const COLUMNS = 60;
const ROWS = 12;

/** @returns nothing where all sizes cost the same, or are too few for a picture */
export function frontierPicture({ sizes, frontier, present, knee }: SizeResult): string[] {
  if (frontier === null || sizes.length < 4) return [];
  const { cost } = frontier;
  const there = sizes.filter((size) => size[cost] !== null);
  const marks = there.map((size): Mark => {
    const beaten = !frontier.sizes.includes(size.name);
    const sign = size.name === knee?.size ? KNEE : size.name === present ? PRESENT : beaten ? '.' : 'o';
    return { x: size[cost]!, y: size.figures['heads_a_week']!.mean, sign };
  });
  // What matters most is drawn last.
  const order = ['.', 'o', PRESENT, KNEE];
  const most = Math.max(...marks.map(({ y }) => y));
  const rows = plane(
    marks.sort((a, b) => order.indexOf(a.sign) - order.indexOf(b.sign)),
    { width: COLUMNS, height: ROWS, bottom: 0 },
  );
  const top = headsText(most);
  const left = Math.max(top.length, 3);
  const xs = marks.map(({ x }) => x);
  const unit = cost === 'holes' ? 'holes' : 'm2';
  const room = (value: number): string => `${cost === 'holes' ? countText(value) : value.toFixed(2)} ${unit}`;
  const [smallest, largest] = [room(Math.min(...xs)), room(Math.max(...xs))];
  return [
    [
      `Heads a week against ${unit}`,
      ...rows.map((row, i) => {
        const label = i === 0 ? top : i === ROWS - 1 ? '0' : '';
        return `  ${label.padStart(left)} |${row}`;
      }),
      `  ${' '.repeat(left)} +${'-'.repeat(COLUMNS)}`,
      `  ${' '.repeat(left)}  ${smallest}${largest.padStart(COLUMNS - smallest.length)}`,
      `  o no other gives as much with as little  . others${signs(present, knee?.size)}`,
    ].join('\n'),
  ];
}

/** Only signs that are seen: the knee hides the size as it is. */
function signs(present: string, knee: string | undefined): string {
  if (knee === undefined) return `  ${PRESENT} as it is`;
  return present === knee ? `  ${KNEE} as it is: the knee` : `  ${PRESENT} as it is  ${KNEE} the knee`;
}
