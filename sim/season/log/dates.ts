/**
 * The dates of a log, in the forms in which spreadsheets write them.
 *
 * Year first, and day.month.year with points, mean one thing only. What is written with strokes or dashes, 4/1/2027, may
 * be day first or month first: that is decided over the whole file, by a date that can be only one of them. A file
 * that leaves it open is refused, not guessed at.
 */

import { EXPECTED_DATE, isExpectedDate, whyNoDate } from '../../models/dates.js';
import { fieldText, type LogFaults } from './faults.js';

/** How a file writes its dates. */
export interface DateForm {
  readonly order: 'year' | 'day' | 'month';
  /** Between the numbers. */
  readonly sign: string;
  /** Whether months and days have two digits always. */
  readonly padded: boolean;
  /** Whether years have two digits. */
  readonly shortYear: boolean;
}

const YEAR_FIRST = /^(\d{4})([-/.])(\d{1,2})\2(\d{1,2})$/;
const YEAR_LAST = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})$/;
/** A day number as spreadsheets count: 30 000 is 1982, 60 000 is 2064. */
const SERIAL = /^[3-5]\d{4}([.,]\d+)?$/;
const WITH_TIME = /^(.*\d)[T ]+\d{1,2}:\d{2}.*$/;

/** A date whose parts are known; `first` and `second` are day and month or month and day. */
interface Parts {
  readonly kind: 'year' | 'day' | 'open';
  readonly year: string;
  readonly first: string;
  readonly second: string;
}

/** The dates of one file: first see them all, then decide, then ask for each. */
export class LogDates {
  readonly #parts = new Map<string, Parts | null>();
  readonly #iso = new Map<string, string>();
  /** The first date that can only be day first, only month first, and could be either: text and line. */
  readonly #only: { day?: Seen; month?: Seen; either?: Seen } = {};
  #openRows = 0;
  #order: 'day' | 'month' | 'both' | null = null;

  /** Take note of a date as the file writes it. */
  see(text: string, line: number): void {
    let parts = this.#parts.get(text);
    if (parts === undefined) {
      parts = partsOf(text);
      this.#parts.set(text, parts);
      if (parts?.kind === 'open') this.#weigh(parts, { text, line });
    }
    if (parts?.kind === 'open' && parts.first !== parts.second) this.#openRows++;
  }

  /** After all dates have been seen: which comes first, the day or the month? */
  decide(faults: LogFaults): void {
    const { day, month, either } = this.#only;
    if (day !== undefined && month !== undefined) {
      const [one, other] = day.line <= month.line ? [day, month] : [month, day];
      const can = (seen: Seen) => (seen === day ? 'day first' : 'month first');
      faults.add({
        line: other.line,
        column: 'date',
        found: `${fieldText(other.text)}, which can only be ${can(other)}, after ${fieldText(one.text)} on line ${one.line}, which can only be ${can(one)}`,
        expected: 'one order of day and month in the whole file',
        advice: 'Format the column as YYYY-MM-DD and save the file again.',
      });
    } else if (day !== undefined) this.#order = 'day';
    else if (month !== undefined) this.#order = 'month';
    else if (either !== undefined) {
      faults.add({
        line: either.line,
        column: 'date',
        found: `${fieldText(either.text)}, which may be day first or month first, and no other date tells`,
        more: this.#openRows - 1,
        expected: 'dates that can be read in one way only',
        advice: 'Format the column as YYYY-MM-DD, or with points as DD.MM.YYYY, and save the file again.',
      });
    } else this.#order = 'both';
  }

  /**
   * A date that was seen, as ISO 8601; call after `decide`.
   * @returns null if it is none (then the fault is told) or if the file does not tell what it is
   */
  iso(text: string, line: number, faults: LogFaults): string | null {
    const known = this.#iso.get(text);
    if (known !== undefined) return known;
    const refuse = (more: { advice: string; kind?: string }): null => {
      faults.add({ line, column: 'date', found: fieldText(text), expected: EXPECTED_DATE, ...more });
      return null;
    };
    const parts = this.#parts.get(text)!;
    if (parts === null) return refuse(adviceFor(text));
    if (parts.kind === 'open' && this.#order === null) return null;
    const dayFirst = parts.kind === 'day' || (parts.kind === 'open' && this.#order !== 'month');
    const [day, month] = dayFirst ? [parts.first, parts.second] : [parts.second, parts.first];
    const iso = `${parts.year}-${month}-${day}`;
    if (!isExpectedDate(iso)) return refuse({ advice: whyNoDate(iso) ?? '', kind: `no ${iso}` });
    this.#iso.set(text, iso);
    return iso;
  }

  /** The form of a date that was seen; year first if the text is no date or its order is not decided. */
  formOf(text: string): DateForm {
    const form = YEAR_FIRST.exec(text) ?? YEAR_LAST.exec(text);
    const parts = this.#parts.get(text);
    if (form === null || parts == null) return ISO_FORM;
    const padded = !/(^|\D)\d(\D|$)/.test(text);
    if (parts.kind === 'year') return { order: 'year', sign: form[2]!, padded, shortYear: false };
    const order = parts.kind === 'day' ? 'day' : this.#order;
    if (order !== 'day' && order !== 'month') return ISO_FORM;
    return { order, sign: form[2]!, padded, shortYear: form[4]!.length === 2 };
  }

  #weigh({ first, second }: Parts, seen: Seen): void {
    if (first === second) return;
    if (Number(first) > 12) this.#only.day ??= seen;
    else if (Number(second) > 12) this.#only.month ??= seen;
    else this.#only.either ??= seen;
  }
}

interface Seen {
  readonly text: string;
  readonly line: number;
}

export const ISO_FORM: DateForm = { order: 'year', sign: '-', padded: true, shortYear: false };

/** An ISO date in a file's own form. */
export function inForm(iso: string, { order, sign, padded, shortYear }: DateForm): string {
  const [fullYear, ...rest] = iso.split('-') as [string, string, string];
  const [month, day] = padded ? rest : rest.map((part) => String(Number(part)));
  const year = shortYear ? fullYear.slice(2) : fullYear;
  const parts =
    order === 'year' ? [year, month, day] : order === 'day' ? [day, month, year] : [month, day, year];
  return parts.join(sign);
}

function partsOf(text: string): Parts | null {
  const yearFirst = YEAR_FIRST.exec(text);
  if (yearFirst !== null) {
    const [, year, , month, day] = yearFirst as unknown as [string, string, string, string, string];
    return { kind: 'year', year, first: month.padStart(2, '0'), second: day.padStart(2, '0') };
  }
  const yearLast = YEAR_LAST.exec(text);
  if (yearLast === null) return null;
  const [, first, sign, second, year] = yearLast as unknown as [string, string, string, string, string];
  // 27-01-04 may be a year first that has lost its century.
  if (year.length === 2 && sign === '-') return null;
  return {
    kind: sign === '.' ? 'day' : 'open',
    year: year.length === 2 ? `20${year}` : year,
    first: first.padStart(2, '0'),
    second: second.padStart(2, '0'),
  };
}

function adviceFor(text: string): { advice: string; kind?: string } {
  if (SERIAL.test(text)) {
    return {
      advice:
        'This is how a spreadsheet numbers its days. Format the column as YYYY-MM-DD and save the file again.',
      kind: 'serial',
    };
  }
  const dated = WITH_TIME.exec(text)?.[1]?.trim();
  if (dated !== undefined && partsOf(dated) !== null) {
    return { advice: `Write the date without the time: ${dated}.`, kind: 'time' };
  }
  return { advice: '' };
}
