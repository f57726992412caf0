/** Room against heads a week, as marks on a plane: where more room stops to pay is seen at a glance. */

import type { SizeResult } from '../../../sim/study/size/size.js';
import { COUNT, fixed } from '../../words/numbers.js';
import { key, plane, type Section, section } from '../section.js';
import { headsOf, KNEE, PRESENT } from './signs.js';

/** What matters most is drawn last. */
const ORDER = ['.', 'o', PRESENT, KNEE];

/** @returns nothing where all sizes cost the same, or are too few for a picture */
export function frontierPicture(result: SizeResult): Section[] {
  const { sizes, frontier, present, knee } = result;
  if (frontier === null || sizes.length < 4) return [];
  const { cost } = frontier;
  const signOf = (name: string): string => {
    if (name === knee?.size) return KNEE;
    return name === present ? PRESENT : frontier.sizes.includes(name) ? 'o' : '.';
  };
  const marks = sizes
    .filter((size) => size[cost] !== null)
    .map((size) => ({
      x: size[cost]!,
      y: headsOf(size),
      sign: signOf(size.name),
      of: size.name,
      joined: frontier.sizes.includes(size.name),
    }))
    .sort((a, b) => ORDER.indexOf(a.sign) - ORDER.indexOf(b.sign));
  const unit = cost === 'holes' ? 'holes' : 'm2';
  const atKnee = present === knee?.size;
  return [
    section(
      `Heads a week against ${unit}`,
      plane(
        marks,
        { form: cost === 'holes' ? COUNT : fixed(2), label: unit },
        { form: COUNT, label: '', from: 0 },
      ),
      key(
        ['o', 'no other gives as much with as little'],
        ['.', 'others'],
        ...(atKnee ? [] : [[PRESENT, 'as it is'] as const]),
        // Only signs that are seen: the knee hides the size as it is.
        ...(knee === null ? [] : [[KNEE, atKnee ? 'as it is: the knee' : 'the knee'] as const]),
      ),
    ),
  ];
}
