/** Dates that two keys tell together. */

import { isIsoDate } from '../models/dates.js';
import { type FaultDraft, foundText, type Path } from './faults.js';

export function isDate(value: unknown): value is string {
  return typeof value === 'string' && isIsoDate(value);
}

/** A span that ends before it begins. @param path of its last date */
export function beforeFrom(path: Path, from: string, to: string): FaultDraft {
  return {
    path,
    at: 'value',
    found: `${foundText(to)}, before from`,
    expected: `a date that is not before ${from}`,
    advice: 'Swap from and to?',
  };
}
