/** Numbers of a row that have a unit and may have decimals: grams, litres, conductivity. */

import type { Column } from './faults.js';

/** The columns that hold one. */
export type Measured = Extract<Column, 'grams' | 'litres' | 'ec'>;

interface Measure {
  readonly expected: string;
  readonly most: number;
  /** What a number is called that has its unit written behind it. */
  readonly without: string;
}

/** The most that a reading of the tank can be [mS/cm]: far beyond what any plant takes, and short of the least in µS/cm that it may be taken for. */
const MOST_EC = 20;

const MEASURES: Readonly<Record<Measured, Measure>> = {
  grams: {
    expected: 'a number of grams of at least 0, or nothing',
    most: Number.POSITIVE_INFINITY,
    without: 'the number of grams',
  },
  litres: {
    expected: 'a number of litres of at least 0, or nothing',
    most: Number.POSITIVE_INFINITY,
    without: 'the number of litres',
  },
  ec: {
    expected: `a conductivity from 0 to ${MOST_EC} mS/cm, or nothing`,
    most: MOST_EC,
    without: 'the number of mS/cm',
  },
};

/** Longer numbers are none that anybody has measured [characters]. */
const LONGEST = 15;

/** What is wrong with the text of a number. */
export interface MeasureFault {
  readonly expected: string;
  readonly advice: string;
}

/**
 * @param text of a field, not empty
 * @param separator of the file
 * @returns the number [g, l or mS/cm by the column], or what is wrong with it
 */
export function measured(column: Measured, text: string, separator: string): number | MeasureFault {
  const { expected, most, without } = MEASURES[column];
  // With commas between the columns a comma in a number is none of its decimals' for certain.
  const decimals = separator === ',' ? /^\d+(\.\d+)?$/ : /^\d+([.,]\d+)?$/;
  const thousands = separator !== ',' && /^\d{1,3}\.\d{3}$/.test(text);
  if (!decimals.test(text) || thousands || text.length > LONGEST) {
    return { expected, advice: adviceOn(text, thousands, without) };
  }
  const value = Number(text.replace(',', '.'));
  if (value <= most) return value;
  // Only a conductivity has a most.
  return { expected, advice: `uS/cm? Then write ${written(thousandth(value), separator)}.` };
}

/** A value in mS/cm of one that is in uS/cm, without what dividing adds behind its digits. */
export function thousandth(value: number): number {
  return Number((value / 1000).toPrecision(LONGEST - 1));
}

/** A number in the file's own way: a point with three digits behind it would be asked about beside semicolons. */
function written(value: number, separator: string): string {
  return separator === ',' ? String(value) : String(value).replace('.', ',');
}

function adviceOn(text: string, thousands: boolean, without: string): string {
  if (thousands) {
    return `Is it ${text.replace('.', '')} or ${text.replace('.', ',')}? Write it so.`;
  }
  if (/^\d+,\d+$/.test(text)) return 'Write decimals with a point, and thousands without a sign.';
  const unit = /^(\d+(?:[.,]\d+)?)\s*\p{L}[\p{L}/]*$/u.exec(text);
  return unit === null ? '' : `Write ${without} without a unit.`;
}
