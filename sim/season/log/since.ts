/** Since when the plants of a `stand` row have stood in their stage: as its note says, `since 2027-02-01..2027-02-10`. */

import { isIsoDate, whyNoDate } from '../../models/dates.js';

/** ISO dates of the first and the last day on which they can have come in; alike if the day is known. */
export interface Since {
  readonly from: string;
  readonly to: string;
}

const SINCE = /\bsince\s+([^\s,;]+)/i;

/** @returns null if the note does not say; of use only if `sinceFault` finds nothing */
export function sinceOf(note: string | null): Since | null {
  const span = SINCE.exec(note ?? '')?.[1];
  if (span === undefined) return null;
  const [from, to = from] = span.split('..') as [string, string?];
  return { from, to };
}

/** What is wrong with what a note says. */
interface SinceFault {
  readonly found: string;
  readonly expected: string;
  readonly advice: string;
}

/** @param date of the row, ISO 8601 @returns null if nothing is wrong */
export function sinceFault(note: string | null, date: string): SinceFault | null {
  const since = sinceOf(note);
  if (since === null) return null;
  const { from, to } = since;
  const found = `since ${from === to ? from : `${from}..${to}`}`;
  const example = 'since 2027-02-01..2027-02-10, or since 2027-02-01';
  for (const day of [from, to]) {
    if (isIsoDate(day)) continue;
    const expected = 'existing dates as YYYY-MM-DD, the first and the last, with two points between';
    return { found, expected, advice: whyNoDate(day) ?? `Example: ${example}.` };
  }
  if (from > to) return { found, expected: 'the earlier date first', advice: `Write since ${to}..${from}.` };
  if (to <= date || !isIsoDate(date)) return null;
  const advice = 'They stand there on the date of the row, so they came in by then.';
  return { found, expected: `dates up to ${date}, the date of the row`, advice };
}
