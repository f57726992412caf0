/** Fields that several parts of the scenario share: names, dates, weekdays, numbers with their limits. */

import * as z from 'zod';
import { EXPECTED_DATE, isExpectedDate, WEEKDAYS, whyNoDate } from '../models/dates.js';
import type { Limits } from '../models/limits.js';
import { nearest } from '../models/nearest.js';
import { type Expectation, field } from './expectations.js';
import { bare } from './schema-walk.js';

const WEEKDAY_NAMES = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'];

/** The weekday (mon to sun) that a misspelt or written-out one means; null if none is near. */
export function nearestWeekday(word: string): string | null {
  return nearest(word, [...WEEKDAYS, ...WEEKDAY_NAMES])?.slice(0, 3) ?? null;
}

/** A whole number within some limits. */
export function whole({ least, most }: Limits, meaning: string, unit: string, more?: Partial<Expectation>) {
  const expected = `a whole number from ${least} to ${most}${unit === '' ? '' : ` (${unit})`}`;
  return field(z.int().min(least).max(most), meaning, { expected, ...more });
}

/** A share from 0 to 1. */
export function share(meaning: string, example: string) {
  return field(z.number().min(0).max(1), meaning, {
    expected: 'a share from 0 to 1',
    example,
    advise: (value) =>
      typeof value === 'number' && value > 1 && value <= 100
        ? `For ${value} % write ${Number((value / 100).toPrecision(12))}.`
        : undefined,
  });
}

/** A number above 0, and no greater than what is reckoned from it can bear. */
export function above0(most: number, meaning: string, unit: string, example: string) {
  const expected = `a number above 0 and at most ${most} (${unit})`;
  return field(z.number().gt(0).max(most), meaning, { expected, example });
}

/** A number within some limits. */
export function between({ least, most }: Limits, meaning: string, unit: string, example: string) {
  const expected = `a number from ${least} to ${most}${unit === '' ? '' : ` (${unit})`}`;
  return field(z.number().min(least).max(most), meaning, { expected, example });
}

/** A number of at least 0. */
export function atLeast0(meaning: string, unit: string, more?: Partial<Expectation>) {
  return field(z.number().min(0), meaning, { expected: `a number of at least 0 (${unit})`, ...more });
}

/** A name of a stage or a crop: it has to fit into a log, a table and a path. */
export function name(meaning: string) {
  return field(
    z.string().regex(/^[\p{L}\p{N}]([^\p{Cc}\p{Cs}\ufffd]{0,58}[^\p{Cc}\p{Cs}\ufffd\s])?$/u),
    meaning,
    {
      expected: 'a name of 1 to 60 characters on one line that begins with a letter or a digit',
      advise: (value) =>
        typeof value === 'number' || typeof value === 'boolean' ? `Put it in quotes: "${value}".` : undefined,
    },
  );
}

/** A date that exists. */
export function date(meaning: string, key: string) {
  return field(z.iso.date().refine(isExpectedDate), meaning, {
    expected: EXPECTED_DATE,
    example: `${key}: 2027-01-04`,
    advise: (value) =>
      (typeof value === 'string' ? whyNoDate(value) : null) ??
      'Example: 2027-01-04 for the 4th of January 2027.',
  });
}

export const weekday = field(z.enum(WEEKDAYS), 'A weekday.', {
  expected: 'a weekday: mon, tue, wed, thu, fri, sat or sun',
  nearest: nearestWeekday,
});

/** A map; what is expected of it is the keys that it needs. */
export function map<Shape extends z.ZodRawShape>(shape: Shape, meaning: string, example?: string) {
  const needed = Object.keys(shape).filter((key) => bare(shape[key] as z.ZodType) === shape[key]);
  const expected =
    needed.length === 1
      ? `the key ${needed[0]}`
      : `the keys ${needed.slice(0, -1).join(', ')} and ${needed.at(-1)}`;
  return field(z.strictObject(shape), meaning, example === undefined ? { expected } : { expected, example });
}

/** A map of which no key is needed. */
export function looseMap<Shape extends z.ZodRawShape>(shape: Shape, meaning: string, example: string) {
  const keys = Object.keys(shape);
  const expected =
    keys.length === 1
      ? `the key ${keys[0]}`
      : `any of the keys ${keys.slice(0, -1).join(', ')} or ${keys.at(-1)}`;
  return field(z.strictObject(shape), meaning, { expected, example });
}

/** A list of weekdays. */
export function weekdays(meaning: string, key: string) {
  return field(z.array(weekday).min(1), meaning, {
    expected: 'a list of 1 to 7 weekdays: mon, tue, wed, thu, fri, sat or sun',
    example: `${key}: [mon, thu]`,
    advise: listAdvice,
  });
}

/** Remedy for a single item where a list is expected. */
export function listAdvice(value: unknown): string | undefined {
  const day = typeof value === 'string' ? nearestWeekday(value) : null;
  return day === null ? undefined : `Write a list, also for a single day: [${day}].`;
}
