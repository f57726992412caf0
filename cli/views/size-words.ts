/** What the pieces of the text about sizes have in common. */

import type { SizeOfLine, SizeResult } from '../../sim/study/size/size.js';
import { thousands } from '../words/numbers.js';

/** Signs behind the size as it is, and the one at the knee. */
export const PRESENT = '*';
export const KNEE = '#';

/** Heads a week, all with one decimal so that they can be read down a column; whole from 100 on. */
export function headsText(heads: number): string {
  return heads >= 100 ? thousands(Math.round(heads)) : heads.toFixed(1);
}

export function sizeNamed({ sizes }: SizeResult, name: string): SizeOfLine {
  return sizes.find((size) => size.name === name)!;
}

/** The signs of a size. */
export function signsOf({ present, knee }: SizeResult, { name }: SizeOfLine): string {
  return (name === present ? PRESENT : '') + (name === knee?.size ? KNEE : '');
}
