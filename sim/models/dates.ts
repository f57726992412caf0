/**
 * Calendar dates as day numbers, in UTC arithmetic only: the clock and the time zone of the machine play no part.
 *
 * A date is an ISO 8601 text (YYYY-MM-DD); a day is a whole number counted from a start date (day 0).
 */

import type { Limits } from './limits.js';

const MS_PER_DAY = 86_400_000;

/** Weekdays as a scenario names them, Monday first. */
export const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;

export type Weekday = (typeof WEEKDAYS)[number];

/** Years that a date of a scenario, a log or an option may be of. */
export const YEARS: Limits = { least: 1900, most: 2999 };

/** What is expected of such a date. */
export const EXPECTED_DATE = `an existing date as YYYY-MM-DD (year ${YEARS.least} to ${YEARS.most}, month, day)`;

const ISO_DATE = /^(\d{4})-(\d{2})-(\d{2})$/;

/**
 * Days of an ISO date since 1970-01-01 [d].
 *
 * @throws RangeError if the text is not an ISO date or the date does not exist
 */
export function dayNumber(iso: string): number {
  const [, year, month, day] = ISO_DATE.exec(iso) ?? [];
  const date = new Date(0);
  date.setUTCFullYear(Number(year), Number(month) - 1, Number(day));
  // 30 February is taken for 2 March: only a date that comes back unchanged exists.
  if (!(date.getUTCMonth() + 1 === Number(month) && date.getUTCDate() === Number(day))) {
    throw new RangeError(`not an existing date as YYYY-MM-DD: ${iso}`);
  }
  return Math.round(date.getTime() / MS_PER_DAY);
}

/** Whether a text is an ISO date that exists. */
export function isIsoDate(text: string): boolean {
  try {
    dayNumber(text);
    return true;
  } catch {
    return false;
  }
}

/** Whether a text is a date as `EXPECTED_DATE` says. */
export function isExpectedDate(text: string): boolean {
  const year = Number(text.slice(0, 4));
  return isIsoDate(text) && year >= YEARS.least && year <= YEARS.most;
}

/** Days from one ISO date to another [d]; negative if `iso` is the earlier one. */
export function dayFrom(start: string, iso: string): number {
  return dayNumber(iso) - dayNumber(start);
}

/**
 * ISO date of a day of the season.
 *
 * @param start ISO date of day 0
 * @param day days from the start [d]; a fraction counts to the date on which it falls
 */
export function isoOfDay(start: string, day: number): string {
  return new Date((dayNumber(start) + Math.floor(day)) * MS_PER_DAY).toISOString().slice(0, 10);
}

/** Weekday of a day of the season: 0 for Monday to 6 for Sunday. */
export function weekdayOfDay(start: string, day: number): number {
  // 1970-01-01 was a Thursday (3).
  return (((dayNumber(start) + day + 3) % 7) + 7) % 7;
}

/**
 * What is wrong with a date of the right form that does not exist, in a sentence; null for any other text.
 * Example: "2027-02 has 28 days."
 */
export function whyNoDate(text: string): string | null {
  const parts = ISO_DATE.exec(text);
  if (parts === null || isIsoDate(text)) return null;
  const [year, month] = [Number(parts[1]), Number(parts[2])];
  if (!(month >= 1 && month <= 12)) return 'A year has the months 01 to 12.';
  const lastDay = new Date(Date.UTC(2000 + (year % 400), month, 0)).getUTCDate();
  return `${parts[1]}-${parts[2]} has the days 01 to ${lastDay}.`;
}
