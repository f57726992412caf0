/** A result in the form that was asked for. */

import type { Rows, Section } from '../sections/section.js';
import { csvText } from './csv.js';
import { jsonText } from './json.js';
import { textOf } from './text.js';

/** The result itself is what --json gives. */
export interface Told {
  readonly result: unknown;
  sections(): readonly Section[];
  rows(): Rows;
}

export function toldAs(form: 'text' | 'json' | 'csv', { result, sections, rows }: Told): string {
  switch (form) {
    case 'text':
      return textOf(sections());
    case 'json':
      return jsonText(result);
    case 'csv':
      return csvText(rows());
  }
}
