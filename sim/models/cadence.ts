/** When sowings, visits and wants fall: the days of a season that a cadence or a list of weekdays names. */

import { WEEKDAYS, type Weekday, weekdayOfDay } from './dates.js';
import { EVERY, within } from './limits.js';

/**
 * 0, `every`, 2 x `every` … before the end of the season [d]. By multiplication: adding would add up rounding errors.
 * @throws RangeError if `every` is out of range
 */
export function daysEvery(every: number, season: number): number[] {
  within('every', every, EVERY);
  const days: number[] = [];
  for (let i = 0; i * every < season; i++) days.push(i * every);
  return days;
}

/**
 * Days of a season that fall on some weekdays, ascending [d].
 * @param start ISO date of day 0
 * @param season its length [d]
 */
export function daysOn(weekdays: readonly Weekday[], start: string, season: number): number[] {
  const wanted = new Set(weekdays.map((weekday) => WEEKDAYS.indexOf(weekday)));
  const first = weekdayOfDay(start, 0);
  const days: number[] = [];
  for (let day = 0; day < season; day++) if (wanted.has((first + day) % 7)) days.push(day);
  return days;
}
