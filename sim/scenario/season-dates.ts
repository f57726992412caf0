/** Dates that lie outside of the season. */

import { dayFrom } from '../models/dates.js';
import type { Path, WarningDraft } from './faults.js';

/** On which side of the season a date is; null if it is in it. */
export function sideOf(date: string, start: string, weeks: number): string | null {
  const day = dayFrom(start, date);
  return day < 0 ? 'before the start' : day >= weeks * 7 ? 'after the end' : null;
}

/** A span of which the season has no day. */
export function spanOutside(
  { from, to }: { readonly from: string; readonly to: string },
  path: Path,
  start: string,
  weeks: number,
): WarningDraft[] {
  const side = sideOf(to, start, weeks);
  if (side === null || side !== sideOf(from, start, weeks)) return [];
  return [{ path, message: `${from} to ${to} is ${side} of the season: it changes nothing.` }];
}
