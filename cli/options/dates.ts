/** Dates as options. */

import { EXPECTED_DATE, isExpectedDate, whyNoDate } from '../../sim/models/dates.js';
import { today } from '../io/streams.js';
import { NOW } from './words.js';

/** @param faults takes a sentence if the date is wrong @returns ISO 8601; null if left out or wrong */
export function todayOf(text: string | undefined, faults: string[]): string | null {
  return text === NOW ? today() : dateOf('--today', text, `, or ${NOW} for the date of this machine`, faults);
}

/** @param or what else it may be @param faults takes a sentence if it is wrong @returns ISO 8601; null if left out or wrong */
export function dateOf(
  option: string,
  text: string | undefined,
  or: string,
  faults: string[],
): string | null {
  if (text === undefined) return null;
  if (isExpectedDate(text)) return text;
  const why = whyNoDate(text);
  faults.push(
    `${option} must not be ${JSON.stringify(text)}. It must be ${EXPECTED_DATE}${or}.${why === null ? '' : ` ${why}`} Example: ${option} 2027-03-15`,
  );
  return null;
}
