/** A bar in plain characters, so that every terminal and pipe shows it. */

import type { Bar } from '../sections/section.js';

/** `=====---   `; a piece that is too small to see is a `|` in its place. */
export function barText({ from, to, upTo }: Bar, width: number): string {
  const place = (share: number): number => Math.max(0, Math.min(width, Math.round(share * width)));
  const [low, high] = [Math.min(place(from), place(to)), Math.max(place(from), place(to))];
  if (low === high && from !== to && upTo <= to) return `${' '.repeat(Math.min(low, width - 1))}|`;
  return ' '.repeat(low) + '='.repeat(high - low) + '-'.repeat(Math.max(0, place(upTo) - high));
}
