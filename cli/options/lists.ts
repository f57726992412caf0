/** Options that are lists: "2,3,4,7", "mon+thu,tue". Checked like single values, all faults of a list at once. */

import { WEEKDAYS, type Weekday } from '../../sim/models/dates.js';
import { EVERY, type Limits } from '../../sim/models/limits.js';
import { nearest } from '../../sim/models/nearest.js';
import type { Cadence } from '../../sim/scenario/vary.js';

/** What the items of a list must be. */
interface Items<Item> {
  readonly option: string;
  /** Such as "whole numbers from 1 to 1000000". */
  readonly expected: string;
  readonly example: string;
  /** `2..5` is no range that stands for 2,3,4,5. */
  readonly whole?: boolean;
  /** @returns undefined if the text is no such item */
  read(text: string): Item | undefined;
}

/**
 * The items of a list option.
 * @param text as typed; undefined if the option was left out
 * @param faults takes a sentence for each fault
 * @returns an empty list if left out or wrong
 */
function listOf<Item>(text: string | undefined, items: Items<Item>, faults: string[]): Item[] {
  if (text === undefined) return [];
  const { option, expected, example } = items;
  const advice = `It must be ${expected}, with commas between. Example: ${option} ${example}`;
  const texts = text.split(',').map((item) => item.trim());
  if (text.trim() === '') {
    faults.push(`${option} must not be empty. ${advice}`);
    return [];
  }
  const found: Item[] = [];
  const seen = new Set<string>();
  for (const item of texts.flatMap((text) => rangeItems(text, items, faults))) {
    const value = items.read(item);
    if (value === undefined) faults.push(`${option} must not hold ${JSON.stringify(item)}. ${advice}`);
    else if (seen.has(JSON.stringify(value)))
      faults.push(`${option} must not hold ${item} twice. Leave one out.`);
    else {
      seen.add(JSON.stringify(value));
      found.push(value);
    }
  }
  return found;
}

/** Days between sowings; `2..5` stands for 2,3,4,5. */
export function everyList(text: string | undefined, faults: string[]): number[] {
  return listOf(
    text,
    {
      option: '--every',
      expected: `numbers of days from ${EVERY.least} to ${EVERY.most}`,
      example: '2,3,4,7',
      read: (item) => numberFrom(item, EVERY),
    },
    faults,
  );
}

/** The cadences that --every and --on name, those of --every first. */
export function cadenceLists(
  every: string | undefined,
  on: string | undefined,
  faults: string[],
): Exclude<Cadence, { refill: true }>[] {
  return [
    ...everyList(every, faults).map((days) => ({ every: days })),
    ...weekdayLists('--on', on, [], faults).map((days) => ({ on: days as Exclude<typeof days, string> })),
  ];
}

/** Numbers, such as hours; `14..16` stands for 14,15,16. @param unit such as "hours a day" */
export function numberList(
  option: string,
  text: string | undefined,
  limits: Limits,
  { unit, example }: { readonly unit: string; readonly example: string },
  faults: string[],
): number[] {
  const expected = `numbers from ${limits.least} to ${limits.most} (${unit})`;
  return listOf(text, { option, expected, example, read: (item) => numberFrom(item, limits) }, faults);
}

/** Whole numbers, such as seeds; `2..5` stands for 2,3,4,5. */
export function wholeList(
  option: string,
  text: string | undefined,
  limits: Limits,
  example: string,
  faults: string[],
): number[] {
  return listOf(
    text,
    {
      option,
      expected: `whole numbers from ${limits.least} to ${limits.most}`,
      example,
      read: (item) => {
        const value = numberFrom(item, limits);
        return Number.isInteger(value) ? value : undefined;
      },
    },
    faults,
  );
}

/** Most values of a range. */
const LONGEST_RANGE = 1000;

/**
 * An item like `4..6` written out as 4, 5, 6. What is no range stays.
 * @param faults takes a sentence if the range runs down or is too long; then it stands for nothing
 */
function rangeItems(item: string, { option, whole }: Items<unknown>, faults: string[]): string[] {
  const range = whole ? null : /^(\d+)\.\.(\d+)$/.exec(item);
  if (range === null) return [item];
  const [first, last] = [Number(range[1]), Number(range[2])];
  const values = last - first + 1;
  if (values < 1) {
    faults.push(
      `${option} must not hold "${item}". That range runs down; it must run up, from the least value to the most. Write ${last}..${first} instead.`,
    );
    return [];
  }
  if (values > LONGEST_RANGE) {
    faults.push(
      `${option} must not hold "${item}". That range has ${values} values; it must have ${LONGEST_RANGE} at most. Make it shorter, or name single values with commas between.`,
    );
    return [];
  }
  return Array.from({ length: values }, (_, i) => String(first + i));
}

/** Sets of weekdays: `mon+thu,tue`. */
export function weekdayLists(
  option: string,
  text: string | undefined,
  words: readonly string[],
  faults: string[],
): (string | Weekday[])[] {
  return listOf(
    text,
    {
      option,
      whole: true,
      expected: `${[...words, 'weekdays joined by +'].join(' or ')} (${WEEKDAYS.join(', ')})`,
      example: words.length > 0 ? `${words[0]},mon+thu` : 'mon+thu,tue',
      read: (item) => (words.includes(item) ? item : weekdaysFrom(item)),
    },
    faults,
  );
}

function weekdaysFrom(item: string): Weekday[] | undefined {
  const days = item.split('+').map((day) => day.trim().toLowerCase());
  const known = days.every((day) => (WEEKDAYS as readonly string[]).includes(day));
  // In the order of the week: tue+mon is no other cadence than mon+tue.
  return known && new Set(days).size === days.length
    ? WEEKDAYS.filter((day) => days.includes(day))
    : undefined;
}

/** A name out of some; a fault names the nearest. */
export function oneOf(
  option: string,
  text: string | undefined,
  names: readonly string[],
  faults: string[],
): string | null {
  if (text === undefined) return null;
  if (names.includes(text)) return text;
  const near = nearest(text, names);
  const advice = near === null ? `Example: ${option} ${names[0]}` : `Did you mean ${near}?`;
  faults.push(
    `${option} must not be ${JSON.stringify(text)}. It must be one of ${names.join(', ')}. ${advice}`,
  );
  return null;
}

/** @returns undefined unless the text is a plain number within the limits */
export function numberFrom(text: string, { least, most }: Limits): number | undefined {
  const value = /^\d+(\.\d+)?$/.test(text) ? Number(text) : Number.NaN;
  return value >= least && value <= most ? value : undefined;
}
