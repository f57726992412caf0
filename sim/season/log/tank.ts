/** Rows of the tank: what their note says, and what is probably not meant by them. */

import type { Column, LogWarning } from './faults.js';
import { thousandth } from './measures.js';
import { TANK_COLUMNS, type TankRow } from './rows.js';

/** A row of the tank; its date is as the file writes it, ISO 8601 once the whole file has been seen. */
export type TankDraft = Omit<TankRow, 'date'> & { date: string };

const OF_LINE: readonly Column[] = ['crop', 'batch', 'stage', 'channel', 'count', 'grams'];

const NOT_THE_LINE = {
  columns: OF_LINE,
  expected: 'nothing, for a tank row tells of no plants or holes',
  advice: 'What was topped up stands in litres, what was read in ec.',
};
const NOT_THE_TANK = {
  columns: TANK_COLUMNS,
  expected: 'nothing, for only a tank row tells of the tank',
  advice: 'Give the tank a row of its own.',
};

/** The columns that must be empty in a row, and what to say if one is not. */
export function emptyIn(action: string | null): {
  readonly columns: readonly Column[];
  readonly expected: string;
  readonly advice: string;
} {
  return action === 'tank' ? NOT_THE_LINE : NOT_THE_TANK;
}

/** The word in a note for a new filling. */
export const CHANGED = 'changed';

/** Whether a note says that the tank was emptied and filled anew: `changed`, alone or with more behind a semicolon or comma. */
export function isChanged(note: string | null): boolean {
  return /^changed\s*([;,]|$)/i.test(note ?? '');
}

/** No water for leaf crops has more [mS/cm] (common practice). */
const USUAL_EC = 5;

/** @returns what can be read but is probably not meant: a slip that several rows have is told of the first */
export function tankWarnings(rows: readonly TankRow[]): LogWarning[] {
  const strong = rows.filter(({ ec }) => ec !== null && ec > USUAL_EC);
  const unread = rows.filter(({ note, changed }) => !changed && /\bchanged\b/i.test(note ?? ''));
  return [
    ...told(
      strong,
      'ec',
      ({ ec }) => `${ec} mS/cm is too much for leaf crops. uS/cm? Then write ${thousandth(ec!)}.`,
    ),
    ...told(
      unread,
      'note',
      ({ note }) =>
        `${JSON.stringify(note)} is not read as a new filling. If it was one, write ${JSON.stringify(`${CHANGED}; ${note}`)}.`,
    ),
  ].sort((a, b) => a.line - b.line);
}

function told(rows: readonly TankRow[], column: Column, words: (row: TankRow) => string): LogWarning[] {
  const [first, ...more] = rows;
  if (first === undefined) return [];
  const others =
    more.length === 0 ? '' : ` So on ${more.length} more ${more.length === 1 ? 'line' : 'lines'}.`;
  return [{ line: first.line, column, message: `${column}: ${words(first)}${others}` }];
}
