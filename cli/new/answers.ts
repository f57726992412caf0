/** What the five answers say, and how they are read. A reader answers with what was meant, or with sentences on what must be mended. */

import { EXPECTED_DATE, isExpectedDate, WEEKDAYS, type Weekday, whyNoDate } from '../../sim/models/dates.js';
import { HEADS } from '../../sim/models/limits.js';
import { nearest } from '../../sim/models/nearest.js';
import { failure, type Result, success } from '../../sim/models/result.js';
import { pathText } from '../../sim/scenario/faults.js';
import { nearestWeekday } from '../../sim/scenario/fields.js';
import { fragmentFaults } from '../../sim/scenario/fragment.js';
import { numberFrom } from '../options/lists.js';
import { faultSentences, placeWords } from '../sections/faults.js';
import { counted, listed } from '../words/numbers.js';
import { KINDS, originOf, USUAL, usualDays, usualNames } from './kinds.js';

/** Trays or channels, all alike. */
export interface StageAnswer {
  readonly name: string;
  readonly channels: number;
  readonly holes: number;
}

export interface CropAnswer {
  readonly name: string;
  /** Mean days in each stage [d]. */
  readonly days: readonly number[];
  /** Where the days are from, if they were not answered. */
  readonly origin: string | null;
}

/** First and last day of an absence. ISO 8601. */
export interface AwayAnswer {
  readonly from: string;
  readonly to: string;
}

export interface Answers {
  readonly stages: readonly StageAnswer[];
  readonly crop: CropAnswer;
  readonly visits: 'daily' | readonly Weekday[];
  /** A week. */
  readonly heads: number;
  readonly away: readonly AwayAnswer[];
}

/** A read answer, or sentences. */
type Read<Value> = Result<Value, string>;

/** Between items: commas, line ends, semicolons, and. */
const BETWEEN = /\s*(?:[,;\n]|\band\b)\s*/;

/** `nursery: 2 channels of 24 holes`, `2 of 24`, `2 x 24`. */
const STAGE =
  /^(?:([^:]*\S)\s*:\s*)?(\d+)\s*(?:[\p{L}-]+\s+)*(?:of|with|x|\*)\s*(\d+)(?:\s+(?:holes?|cells?|plants?|places?)(?:\s+each)?)?$/iu;

const EXPECTED_STAGE = 'a number of trays or channels and the holes of each, such as 2 channels of 24';

/** @param text such as `1 tray of 40, 2 channels of 24` */
export function readStages(text: string): Read<StageAnswer[]> {
  const items = itemsOf(text);
  if (items.length === 0) return failure([`It must be ${EXPECTED_STAGE}.`]);
  const names = usualNames(items.length);
  const stages: StageAnswer[] = [];
  const faults: string[] = [];
  for (const [i, item] of items.entries()) {
    const parts = STAGE.exec(item);
    if (parts === null) faults.push(`Found ${JSON.stringify(item)}; expected ${EXPECTED_STAGE}.`);
    else stages.push({ name: parts[1] ?? names[i]!, channels: Number(parts[2]), holes: Number(parts[3]) });
  }
  return answered(stages, faults, { stages });
}

/** The last number of a text. */
const LAST_DAYS = /[\s:,;+]*(?<![\d.])(\d+(?:\.\d+)?)\s*(?:days?)?[\s,;+]*$/;

/** A name, then numbers to the end: `butterhead 7 14 21`, `butterhead: 7 + 14 + 21 days`. */
function nameAndDays(text: string): { name: string; days: number[] } {
  let name = text.trim();
  const days: number[] = [];
  for (let last = LAST_DAYS.exec(name); last !== null; last = LAST_DAYS.exec(name)) {
    days.unshift(Number(last[1]));
    name = name.slice(0, last.index);
  }
  return { name, days };
}

/** @param stages null if they are not known: then how many days there must be is not, either */
export function readCrop(text: string, stages: readonly StageAnswer[] | null): Read<CropAnswer> {
  const { name, days: typed } = nameAndDays(text.replace(/\s+/g, ' '));
  const of = stages === null ? '' : ` (${listed(stages.map((stage) => stage.name))})`;
  const expected = `one kind, and its days in each stage${of}`;
  if (name === '') return failure([`It must be ${expected}.`]);
  if (stages === null) return answered({ name, days: typed, origin: null }, [], null);
  const kind = KINDS.find((known) => known.name === name.toLowerCase());
  const usual = kind === undefined || typed.length > 0 ? null : usualDays(kind, stages.length);
  const days = usual ?? typed;
  const crop = { name, days, origin: usual === null ? null : originOf(kind!) };
  if (days.length !== stages.length) {
    const found = `${typed.length === 0 ? 'no days' : counted(typed.length, 'number')} behind ${JSON.stringify(name)}`;
    const near =
      typed.length > 0 || kind !== undefined
        ? null
        : nearest(
            name,
            KINDS.map((known) => known.name),
          );
    const meant = near === null ? '' : ` Did you mean ${near}?`;
    return failure([`Found ${found}; expected ${expected}: ${counted(stages.length, 'number')}.${meant}`]);
  }
  const growing = stages.map((stage, s) => [stage.name, { days: days[s], spread: USUAL.spread }]);
  const sow = { refill: true };
  return answered(crop, [], { stages, crops: [{ name, sow, stages: Object.fromEntries(growing) }] });
}

const DAILY = ['daily', 'every day', 'each day', 'all days'];
const FULL = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'];

/** @param text `mon thu sat`, full names too, or `daily` */
export function readVisits(text: string): Read<'daily' | Weekday[]> {
  const said = text.trim().toLowerCase().replace(/\s+/g, ' ');
  if (DAILY.includes(said)) return success('daily');
  const words = said.split(/[\s,;+]+|\band\b/).filter((word) => word !== '');
  if (words.length === 0) return failure([`It must be daily, or ${WEEKDAY_WORDS}.`]);
  const faults: string[] = [];
  const days = words.flatMap((word): Weekday[] => {
    const day = WEEKDAYS[FULL.findIndex((full) => word.length >= 3 && `${full}s`.startsWith(word))];
    if (day !== undefined) return [day];
    const near = nearestWeekday(word) ?? nearest(word, ['daily']);
    const meant = near === null ? '' : ` Did you mean ${near}?`;
    faults.push(`Found ${JSON.stringify(word)}; expected ${WEEKDAY_WORDS}, or daily.${meant}`);
    return [];
  });
  const twice = days.filter((day, i) => days.indexOf(day) < i);
  if (twice.length > 0) faults.push(`Found ${twice[0]} a second time; expected every weekday once.`);
  if (faults.length > 0) return failure(faults);
  return success(days.length === WEEKDAYS.length ? 'daily' : WEEKDAYS.filter((day) => days.includes(day)));
}

const WEEKDAY_WORDS = 'weekdays: mon, tue, wed, thu, fri, sat or sun';

export function readHeads(text: string): Read<number> {
  const value = numberFrom(text.trim().replace(/\s*(?:heads?)?(?:\s+(?:a|per)\s+week)?$/i, ''), HEADS);
  return value !== undefined && Number.isInteger(value)
    ? success(value)
    : failure([`It must be a whole number from ${HEADS.least} to ${HEADS.most}.`]);
}

const NEVER = ['none', 'no', 'never', 'not'];

/** @param text `2027-02-08..2027-02-14`, several; one date is one day; `none` */
export function readAway(text: string): Read<AwayAnswer[]> {
  if (NEVER.includes(text.trim().toLowerCase())) return success([]);
  const items = text
    .trim()
    .replace(/\s*(?:\.\.+|\bto\b|\buntil\b)\s*/g, '..')
    .split(/[\s,;]+|\band\b/)
    .filter((item) => item !== '');
  const expected = `first..last date without a visit, each ${EXPECTED_DATE}, or none`;
  if (items.length === 0) return failure([`It must be ${expected}.`]);
  const faults: string[] = [];
  const away = items.flatMap((item): AwayAnswer[] => {
    const [from = '', to = from, ...more] = item.split('..');
    const wrong = [from, to].find((date) => !isExpectedDate(date));
    if (wrong === undefined && more.length === 0) return [{ from, to }];
    const why = wrong === undefined ? null : whyNoDate(wrong);
    faults.push(`Found ${JSON.stringify(item)}; expected ${expected}.${why === null ? '' : ` ${why}`}`);
    return [];
  });
  return answered(away, faults, { away });
}

function itemsOf(text: string): string[] {
  return text
    .trim()
    .split(BETWEEN)
    .filter((item) => item !== '');
}

/**
 * An answer that could be read, if the scenario can have it.
 * @param faults what could not be read
 * @param data keys of the scenario with the answer in them; null if they cannot be told yet
 */
function answered<Value>(
  value: Value,
  faults: readonly string[],
  data: Readonly<Record<string, unknown>> | null,
): Read<Value> {
  const wrong =
    faults.length > 0 || data === null
      ? faults
      : fragmentFaults(data).map(
          ({ path, found, expected, nearest = null, advice }) =>
            `${placeWords(pathText(path))}: ${faultSentences({ found, expected, nearest, advice: adviceOn(advice) })}`,
        );
  return wrong.length === 0 ? success(value) : failure([...new Set(wrong)]);
}

/** An example of the schema is a line of a file, and nothing to be typed here. */
function adviceOn(advice: string | undefined): string | undefined {
  return advice?.startsWith('Example:') ? undefined : advice;
}
