/** The first round over a log: its header, what each row says by itself, and how the file is written. */

import { type DateForm, LogDates } from './dates.js';
import type { Column, LogFaults, LogWarning } from './faults.js';
import { FieldReader, type RowDraft } from './fields.js';
import { readHeader, separatorOf } from './header.js';
import type { TankDraft } from './tank.js';
import { eachRecord, MOST_QUOTE_FAULTS, type QuoteFault } from './text.js';

/** How a file is written, so that a row can be added in its own way. */
export interface Dialect {
  readonly separator: string;
  /** For each column of the file: the column that it is; null if it is none that is read. */
  readonly columns: readonly (Column | null)[];
  /** As in the last row. */
  readonly dates: DateForm;
}

export interface LogRecords {
  readonly drafts: RowDraft[];
  /** The rows of the tank. */
  readonly tank: TankDraft[];
  /** All dates have been seen, and it is decided how they are read. */
  readonly dates: LogDates;
  readonly dialect: Dialect;
}

/** @param content a plain text @returns null if there is no header, or none that will do */
export function readRecords(content: string, faults: LogFaults, warnings: LogWarning[]): LogRecords | null {
  const separator = separatorOf(content);
  const records = new Records(separator, faults, warnings);
  const quotes = eachRecord(content, separator, (fields, line) => records.take(fields, line));
  for (const [i, fault] of quotes.entries()) tellQuotes(fault, i + 1 === MOST_QUOTE_FAULTS, faults);
  return records.end(!content.endsWith('\n'));
}

class Records {
  readonly #separator: string;
  readonly #faults: LogFaults;
  readonly #warnings: LogWarning[];
  readonly #drafts: RowDraft[] = [];
  readonly #tank: TankDraft[] = [];
  readonly #dates = new LogDates();
  #columns: readonly (Column | null)[] | null = null;
  /** null before the header, and after one that will not do. */
  #fields: FieldReader | null = null;
  #lastDate = '';
  /** A record with too few fields. Whether it is half a row is known when the next one comes, or none. */
  #short: { readonly line: number; readonly found: number } | null = null;

  constructor(separator: string, faults: LogFaults, warnings: LogWarning[]) {
    this.#separator = separator;
    this.#faults = faults;
    this.#warnings = warnings;
  }

  take(fields: readonly string[], line: number): void {
    if (isBlank(fields)) return;
    if (this.#columns === null) this.#takeHeader(fields, line);
    else if (this.#fields !== null) this.#takeRow(fields, line, this.#columns.length, this.#fields);
  }

  #takeRow(fields: readonly string[], line: number, width: number, reader: FieldReader): void {
    this.#tellShort(false);
    if (fields.length < width) this.#short = { line, found: fields.length };
    // Also fields that are empty: a decimal comma moves an empty note out of its column.
    if (fields.length > width) tellFields(line, fields.length, width, false, this.#faults);
    if (fields.length !== width) {
      this.#drafts.push(reader.salvage(fields, line));
      return;
    }
    const draft = reader.read(fields, line);
    if (draft.date !== '') {
      this.#dates.see(draft.date, line);
      this.#lastDate = draft.date;
    }
    if (draft.action === 'tank') this.#tank.push(draft);
    else this.#drafts.push(draft);
  }

  /** @param cut whether the file ends without an end of line */
  end(cut: boolean): LogRecords | null {
    this.#tellShort(cut);
    if (this.#columns === null && this.#faults.count === 0) {
      const expected = 'a header line, then one row for each thing that was done';
      this.#faults.add({ line: 1, column: null, found: 'an empty file', expected });
    }
    if (this.#fields === null || this.#columns === null) return null;
    this.#dates.decide(this.#faults);
    const dialect = {
      separator: this.#separator,
      columns: this.#columns,
      dates: this.#dates.formOf(this.#lastDate),
    };
    return { drafts: this.#drafts, tank: this.#tank, dates: this.#dates, dialect };
  }

  #takeHeader(fields: readonly string[], line: number): void {
    const known = this.#faults.count;
    this.#columns = readHeader(fields, line, this.#faults, this.#warnings);
    if (this.#faults.count === known) {
      this.#fields = new FieldReader(this.#columns, this.#separator, this.#faults);
    }
  }

  #tellShort(half: boolean): void {
    if (this.#short === null) return;
    tellFields(this.#short.line, this.#short.found, this.#columns!.length, half, this.#faults);
    this.#short = null;
  }
}

/** A row of nothing, as spreadsheets leave below their tables. */
function isBlank(fields: readonly string[]): boolean {
  for (const field of fields) if (field !== '') return false;
  return true;
}

function tellFields(line: number, found: number, width: number, half: boolean, faults: LogFaults): void {
  const fields = `${found} ${found === 1 ? 'field' : 'fields'}`;
  faults.add({
    line,
    column: null,
    found: half ? `half a row at the end of the file: ${fields} and no end of line` : fields,
    expected: `${width} fields, as many as the header has`,
    advice: half
      ? 'Complete the row, or remove it if what it says was not done.'
      : found > width
        ? 'Is there a separator inside a field, such as a decimal comma? Then the field needs quotes.'
        : 'Is a separator missing?',
    ...(half ? {} : { kind: `${found} fields` }),
  });
}

function tellQuotes({ line, kind }: QuoteFault, last: boolean, faults: LogFaults): void {
  const found = {
    open: 'a field that begins with a quote and has none at its end',
    inside: 'a quote inside a field that does not begin with one',
    after: 'something between a closing quote and the end of the field',
  }[kind];
  faults.add({
    line,
    column: null,
    found,
    expected: 'fields without quotes, or in quotes as a whole',
    advice: `Quotes inside a field in quotes are doubled: "5"" pot".${last ? ' What comes below was not read.' : ''}`,
  });
}
