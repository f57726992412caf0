/** What the sections about sizes have in common: signs of sizes, and how heads a week are written. */

import type { SizeOfLine, SizeResult } from '../../../sim/study/size/size.js';
import { type Form, fixed } from '../../words/numbers.js';
import { type Key, key } from '../section.js';

/** Signs of the size as it is, and of the one at the knee. */
export const PRESENT = '*';
export const KNEE = '#';

export function signsOf({ present, knee }: SizeResult, { name }: SizeOfLine): string {
  return (name === present ? PRESENT : '') + (name === knee?.size ? KNEE : '');
}

export function signsKey({ knee }: SizeResult): Key {
  return key([PRESENT, 'as it is'], ...(knee === null ? [] : [[KNEE, 'the knee'] as const]));
}

/** Heads a week of all sizes alike, so that they can be read down a column. */
export function headsForm({ sizes }: SizeResult): Form {
  return fixed(Math.max(...sizes.map(({ bound }) => bound.pure.heads_a_week)) >= 100 ? 0 : 1);
}

export function sizeNamed({ sizes }: SizeResult, name: string): SizeOfLine {
  return sizes.find((size) => size.name === name)!;
}

export function headsOf({ figures }: SizeOfLine): number {
  return figures.heads_a_week!.mean;
}
