/** Rows as CSV (RFC 4180). */

import { stringify } from 'csv-stringify/sync';
import type { Rows } from '../sections/section.js';

/**
 * Lines end with CRLF; a field that holds a comma, a quote or a line break is quoted. A text that a spreadsheet would take for
 * a formula gets an apostrophe before it; a negative number stays a number.
 */
export function csvText(rows: Rows): string {
  return stringify(
    rows.map((row) => [...row]),
    { record_delimiter: 'windows', escape_formulas: true },
  );
}
