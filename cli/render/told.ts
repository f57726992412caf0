/** A result in the form that was asked for. */

import type { Rows, Section } from '../sections/section.js';
import { csvText } from './csv.js';
import { plainJson } from './obeyed.js';
import { textOf } from './text.js';

/** @param result itself is what --json gives @param sections what is said of it @param rows of its CSV */
export function toldAs<Result>(
  form: 'text' | 'json' | 'csv',
  result: Result,
  sections: (result: Result) => readonly Section[],
  rows: (result: Result) => Rows,
): string {
  switch (form) {
    case 'text':
      return textOf(sections(result));
    case 'json':
      return jsonText(result);
    case 'csv':
      return csvText(rows(result));
  }
}

/** One JSON document, numbers in full; its keys are those of the result's type. */
export function jsonText(result: unknown): string {
  return plainJson(`${JSON.stringify(result, null, 2)}\n`);
}
