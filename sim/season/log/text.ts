/**
 * The text of a log as records of fields (RFC 4180), with the line on which each begins.
 *
 * csv-parse reads whatever has quotes in it, in pieces, so that a long log never lies in memory twice. Lines without
 * any quote need no parser: cutting them at the separators gives the same at a fifth of the time.
 */

import { CsvError, parse } from 'csv-parse/sync';

/** What is wrong with a record's quotes. */
export interface QuoteFault {
  readonly line: number;
  readonly kind: 'open' | 'inside' | 'after';
}

/** Least length of a piece for csv-parse [characters]. */
const PIECE = 65_536;
/** With more than this, quotes are not what the file means by quotes; reading on would cost much and tell little. */
export const MOST_QUOTE_FAULTS = 10;

// biome-ignore lint/suspicious/noControlCharactersInRegex: finding them is the purpose
const NOT_TEXT = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\u007F\uFFFD]/;

/** The text without byte order mark and with `\n` for every end of line, also inside quotes. */
export function plainText(text: string): string {
  const content = text.startsWith('\uFEFF') ? text.slice(1) : text;
  return content.includes('\r') ? content.replace(/\r\n?/g, '\n') : content;
}

/** Line and name of the first character that is no text; null if all are. Expects a plain text. */
export function oddCharacter(text: string): { line: number; found: string } | null {
  const odd = NOT_TEXT.exec(text);
  if (odd === null) return null;
  const code = odd[0].charCodeAt(0);
  const found = code === 0xfffd ? 'bytes that are not UTF-8' : `a character that is not text (code ${code})`;
  return { line: breaksIn(text, odd.index) + 1, found };
}

/**
 * Go through all records.
 * @param text a plain text
 * @param take hears each record and the line on which it begins; fields are trimmed
 * @returns what is wrong with quotes; the lines on which that is are left out, and all that comes after the tenth
 */
export function eachRecord(
  text: string,
  separator: string,
  take: (fields: string[], line: number) => void,
): QuoteFault[] {
  const faults: QuoteFault[] = [];
  let at = 0;
  let line = 1;
  while (at < text.length) {
    const quote = text.indexOf('"', at);
    const plainEnd = quote === -1 ? text.length : text.lastIndexOf('\n', quote) + 1;
    while (at < plainEnd) {
      const end = lineEnd(text, at);
      take(trimmed(text.slice(at, end).split(separator)), line++);
      at = end + 1;
    }
    if (quote === -1) break;
    const end = pieceEnd(text, at);
    const piece = text.slice(at, end);
    const { records, fault } = quotedRecords(piece, separator);
    let taken = 0;
    for (const fields of records) {
      const begins = line + taken;
      for (const field of fields) taken += breaksIn(field, field.length);
      taken++;
      take(trimmed(fields), begins);
    }
    if (fault === null) {
      line += taken;
      at = end;
      continue;
    }
    // The record that cannot be read is left out, but only its first line: a quote that was never closed would take
    // the rest of the file with it.
    for (let i = 0; i <= taken; i++) at = lineEnd(text, at) + 1;
    faults.push({ line: line + taken, kind: fault });
    line += taken + 1;
    if (faults.length === MOST_QUOTE_FAULTS) break;
  }
  return faults;
}

/** Place of the next end of line, or the end of the text. */
function lineEnd(text: string, from: number): number {
  const end = text.indexOf('\n', from);
  return end === -1 ? text.length : end;
}

/** Where a piece of at least PIECE characters can end: after a line, and outside quotes. */
function pieceEnd(text: string, from: number): number {
  let end = lineEnd(text, Math.min(text.length, from + PIECE));
  let quote = text.indexOf('"', from);
  let outside = true;
  for (;;) {
    for (; quote !== -1 && quote < end; quote = text.indexOf('"', quote + 1)) outside = !outside;
    if (outside) return Math.min(end + 1, text.length);
    if (quote === -1) return text.length;
    end = lineEnd(text, quote);
  }
}

/** The records up to the first one whose quotes are wrong. */
function quotedRecords(
  piece: string,
  separator: string,
): { records: string[][]; fault: QuoteFault['kind'] | null } {
  const options = {
    delimiter: separator,
    record_delimiter: '\n',
    relax_column_count: true,
    ltrim: true,
    rtrim: true,
  };
  try {
    return { records: parse(piece, options), fault: null };
  } catch (error) {
    const kind = error instanceof CsvError ? QUOTE_FAULTS[error.code] : undefined;
    if (kind === undefined) throw error;
    const sound = Number((error as CsvError)['records']);
    return { records: sound === 0 ? [] : parse(piece, { ...options, to: sound }), fault: kind };
  }
}

const QUOTE_FAULTS: Readonly<Record<string, QuoteFault['kind']>> = {
  CSV_QUOTE_NOT_CLOSED: 'open',
  INVALID_OPENING_QUOTE: 'inside',
  CSV_INVALID_CLOSING_QUOTE: 'after',
  CSV_NON_TRIMABLE_CHAR_AFTER_CLOSING_QUOTE: 'after',
};

function trimmed(fields: string[]): string[] {
  for (let i = 0; i < fields.length; i++) fields[i] = fields[i]!.trim();
  return fields;
}

/** Ends of line before a place. */
function breaksIn(text: string, to: number): number {
  let count = 0;
  for (let at = text.indexOf('\n'); at !== -1 && at < to; at = text.indexOf('\n', at + 1)) count++;
  return count;
}
