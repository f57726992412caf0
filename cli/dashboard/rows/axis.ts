/** The season from left to right: which days stand in which column, for everything that is drawn along it. */

import { isoOfDay } from '../../../sim/models/dates.js';
import { MONTHS } from '../../words/dates.js';
import type { Row, Signs } from '../theme.js';
import { RowWriter } from './rows.js';

export interface TimeAxis {
  readonly days: number;
  readonly columns: number;
  /** Days that stand in one column, a whole number of weeks or a part of one [d]. */
  readonly daysPerColumn: number;
  /** Weeks that stand in one column; 1 where a week has one column or more. */
  readonly weeksPerColumn: number;
}

/** Most columns that one week takes. */
const WIDEST_WEEK = 7;

/** An axis for so many weeks in at most `width` columns: whole columns a week, or whole weeks a column. */
export function timeAxis(weeks: number, width: number): TimeAxis {
  const room = Math.max(1, width);
  const days = weeks * 7;
  if (weeks > room) {
    const weeksPerColumn = Math.ceil(weeks / room);
    return {
      days,
      columns: Math.ceil(weeks / weeksPerColumn),
      daysPerColumn: 7 * weeksPerColumn,
      weeksPerColumn,
    };
  }
  const perWeek = Math.min(WIDEST_WEEK, Math.floor(room / weeks));
  return { days, columns: weeks * perWeek, daysPerColumn: 7 / perWeek, weeksPerColumn: 1 };
}

export function columnOfDay(axis: TimeAxis, day: number): number {
  return Math.max(0, Math.min(axis.columns - 1, Math.floor((day + 1e-9) / axis.daysPerColumn)));
}

/** First week in a column. */
export function weekOfColumn(axis: TimeAxis, column: number): number {
  return Math.floor((column * axis.daysPerColumn + 1e-9) / 7);
}

/**
 * The scale of dates: each month where it begins, years too where there are many, and the day on the screen.
 */
export function dateScale(axis: TimeAxis, start: string, day: number, signs: Signs): Row {
  const places = new Array<string>(axis.columns).fill(signs.rule);
  let free = 0;
  for (const { first, label } of months(axis.days, start, axis.days / axis.columns > 60)) {
    const at = columnOfDay(axis, first);
    if (at < free || at + 1 + label.length > axis.columns) continue;
    places.splice(at, 1 + label.length, signs.tick, ...label);
    free = at + 1 + label.length;
  }
  const today = columnOfDay(axis, day);
  const writer = new RowWriter();
  places.forEach((sign, column) => {
    // A letter stays one: on a short scale there would be no month to read.
    if (column === today && sign !== signs.rule && sign !== signs.tick) writer.put(sign, 'chosen');
    else if (column === today) writer.put(signs.crossing, 'strong');
    else writer.put(sign, 'faint');
  });
  return writer.row();
}

/**
 * Days on which months (or years) begin, and what to write there; day 0 counts as the beginning of its month.
 */
function months(days: number, start: string, years: boolean): { first: number; label: string }[] {
  const found: { first: number; label: string }[] = [];
  for (let day = 0; day < days; day++) {
    const iso = isoOfDay(start, day);
    if (day > 0 && !iso.endsWith(years ? '01-01' : '-01')) continue;
    found.push({ first: day, label: years ? iso.slice(0, 4) : MONTHS[Number(iso.slice(5, 7)) - 1]! });
  }
  return found;
}
