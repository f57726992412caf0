/** The header line of a log: which separator the file has, and which column stands where. */

import { nearest } from '../../models/nearest.js';
import { type Column, fieldText, type LogFaults, type LogWarning } from './faults.js';
import { ALL_COLUMNS, COLUMNS, TANK_COLUMNS } from './rows.js';

/** Separators that spreadsheets write. */
const SEPARATORS = [',', ';', '\t'];
/** A table that somebody keeps has fewer columns. */
const MOST_COLUMNS = 100;
/** Columns that a file may be without. */
const OPTIONAL: readonly Column[] = ['channel', 'grams', 'note', ...TANK_COLUMNS];

/** Does a text begin as a log does: with names of columns? One name may stand at the head of anything. */
export function isLog(text: string): boolean {
  return knownNames(text, separatorOf(text)) > 1;
}

/** The separator with which most columns of the first line have names that are known; a comma if none has. */
export function separatorOf(text: string): string {
  const known = SEPARATORS.map((separator) => knownNames(text, separator));
  return SEPARATORS[known.indexOf(Math.max(...known))]!;
}

/** How many columns of the first line have names that are known. */
function knownNames(text: string, separator: string): number {
  const first = /^\s*(.*)/.exec(text)![1]!;
  return namesOf(first.split(separator).map((name) => name.replaceAll('"', ''))).filter(isColumn).length;
}

/** @returns for each column of the file the column that it is; null if it is none that is read */
export function readHeader(
  fields: readonly string[],
  line: number,
  faults: LogFaults,
  warnings: LogWarning[],
): (Column | null)[] {
  if (fields.length > MOST_COLUMNS) {
    const found = `a header of ${fields.length} columns`;
    faults.add({ line, column: null, found, expected: `at most ${MOST_COLUMNS} columns` });
    return [];
  }
  const names = namesOf(fields);
  if (!names.some(isColumn)) {
    faults.add({
      line,
      column: null,
      found: fieldText(fields.join(',')),
      expected: `a header line with the names of the columns: ${COLUMNS.join(',')}`,
    });
    return [];
  }
  const columns = names.map((name, i) => (isColumn(name) && names.indexOf(name) === i ? name : null));
  const missing = ALL_COLUMNS.filter((name) => !names.includes(name));
  names.forEach((name, i) => {
    if (columns[i] !== null) return;
    if (isColumn(name)) {
      faults.add({
        line,
        column: name,
        found: 'a second column of this name',
        expected: 'each column once',
        kind: 'twice',
      });
      return;
    }
    const meant = nearest(name, missing) as Column | null;
    if (meant !== null && !OPTIONAL.includes(meant)) return;
    const advice = meant === null ? '' : ` Did you mean ${meant}?`;
    const title = name === '' ? `column ${i + 1}, which has no name,` : `the column ${fieldText(fields[i]!)}`;
    warnings.push({ line, column: fields[i]!, message: `${title} is not read.${advice}` });
  });
  for (const name of missing) {
    if (OPTIONAL.includes(name)) continue;
    const meant = names.findIndex((other, i) => columns[i] === null && nearest(other, missing) === name);
    const found = meant === -1 ? `no column ${name}` : `no column ${name}, but ${fieldText(fields[meant]!)}`;
    const advice = meant === -1 ? '' : `Name it ${name}.`;
    faults.add({ line, column: name, found, expected: `the columns ${COLUMNS.join(',')}`, advice });
  }
  return columns;
}

function namesOf(fields: readonly string[]): string[] {
  return fields.map((name) => name.trim().toLowerCase());
}

function isColumn(name: string): name is Column {
  return (ALL_COLUMNS as readonly string[]).includes(name);
}
