/**
 * One more row for a season log: what somebody typed, checked against what stands, as text for the end of the file.
 *
 * The row is judged by the reader itself, as the last row of the whole file. So what is written is what will be read,
 * and a typed value is wrong in the same words as one in a file.
 */

import { EXPECTED_DATE, isExpectedDate, whyNoDate, YEARS } from '../../models/dates.js';
import { type Failure, failure, type Result, type Success, success } from '../../models/result.js';
import * as route from '../../models/route.js';
import type { LoggedCrop } from './check-rows.js';
import { inForm } from './dates.js';
import {
  type Column,
  fieldText,
  type LogFault,
  type LogFaultDraft,
  LogFaults,
  type LogWarning,
  withoutEchoes,
} from './faults.js';
import { lastDate, readLog, type SeasonLog } from './read.js';
import type { Dialect } from './records.js';
import { ALL_COLUMNS, COLUMNS, type LogRow, TANK_COLUMNS, type TankRow } from './rows.js';
import type { BatchStanding, Standing } from './standing.js';
import { emptyIn, tankWarnings } from './tank.js';
import { oddCharacter } from './text.js';
import { widened } from './widened.js';

/** The fields of a row as typed; empty if left out. The date is an ISO date always. */
export type Typed = Readonly<Record<Column, string>>;

/** The line whose log it is. */
export interface LoggedLine {
  readonly stages: readonly string[];
  readonly crops: readonly LoggedCrop[];
}

/** Where the stages come from: the line given, the log itself, or (as no plant was moved yet) a guess. */
export type StagesFrom = 'line' | 'log' | 'guess';

/** A row that can be added. */
export interface Appended {
  /** The present text with the columns that the row needs, which it is to be replaced by; null if it stays as it is. */
  readonly widened: string | null;
  /** What is to be written behind that. */
  readonly text: string;
  readonly row: LogRow | TankRow;
  /** What of the row is probably not meant. */
  readonly warnings: readonly LogWarning[];
  /** What stands with the row. */
  readonly standing: Standing;
  /** The batch of the row; null for `clean` and `tank`. */
  readonly batch: BatchStanding | null;
  readonly stagesFrom: StagesFrom;
}

/** A row that cannot be added: why, and by which stages it was looked at. */
export interface Refused extends Failure<LogFault> {
  /** Whether the file was wrong before, or the row is. */
  readonly wrong: 'file' | 'row';
  readonly stages: readonly string[];
  readonly stagesFrom: StagesFrom;
}

/** Tells what is wrong with the row. */
type Tell = (fault: Omit<LogFaultDraft, 'line'>) => void;

/** The header of a new log. */
const NEW_LOG = `${COLUMNS.join(',')}\n`;
const NEW_LOG_WITH_TANK = `${ALL_COLUMNS.join(',')}\n`;

/**
 * @param text of the present file, with its byte order mark and line ends; empty if there is none yet
 * @param given the row as typed. `batch` may be empty for `sow` (then it gets the next number), `stage` where the plants can be in one
 * stage only
 * @param line null if it is not known
 * @param usual stages that are taken if the line is not known and the log names no others
 */
export function appendRow(
  text: string,
  given: Typed,
  line: LoggedLine | null,
  usual: readonly string[],
): Success<Appended> | Refused {
  // The reader takes it in any letters.
  const typed = { ...given, action: given.action.trim().toLowerCase() };
  const begun = text.trim() !== '';
  // A file that holds nothing gets its header with the first row.
  const header = typed.action === 'tank' ? NEW_LOG_WITH_TANK : NEW_LOG;
  const opening = begun ? missingEnd(text) : `${missingEnd(text)}${header}`;
  const { reading, stages, stagesFrom } = readPresent(begun ? text : header, line, usual);
  if (!reading.ok) return { ...reading, wrong: 'file', stages: [], stagesFrom };
  const present = reading.value;
  const faults = new LogFaults();
  const number = lineCount(text + opening) + 1;
  const refused = (more: readonly LogFault[]): Refused => {
    const all = withoutEchoes([...faults.sorted(), ...more]);
    return { ...failure(all), wrong: 'row', stages: present.stages, stagesFrom };
  };
  const tell: Tell = (fault) => faults.add({ line: number, ...fault });
  for (const column of ALL_COLUMNS) {
    if (oddCharacter(typed[column]) === null) continue;
    tell({ column, found: 'a character that is not text', expected: 'plain text' });
  }
  if (faults.count > 0) return refused([]);
  const full = completed(typed, present, stagesFrom, tell);
  const { dialect, more } = withTank(present.dialect, typed.action);
  checkPlaces(full, dialect, tell);
  const date = checkedDate(full.date, present, tell);
  const addition = `${opening}${rowText({ ...full, date }, dialect)}${lineEndOf(text)}`;
  const before = more.length === 0 ? null : widened(text, dialect.separator, more);
  const after = readLog((before ?? text) + addition, stages, line?.crops ?? null);
  if (!after.ok) {
    const own = after.faults.filter((fault) => fault.line === number);
    if (own.length === 0 && typed.action === 'tank') return refused(after.faults);
    if (own.length === 0) {
      // The row would make the log's own stages others, so that its earlier rows could not be true.
      const names = present.stages;
      const expected = `one of the stages ${names.join(', ')}`;
      tell({ column: 'stage', found: fieldText(full.stage), expected, names: () => names, word: full.stage });
    }
    return refused(own);
  }
  if (faults.count > 0) return refused([]);
  const { rows, tank, standing } = after.value;
  const row = typed.action === 'tank' ? tank.at(-1)! : rows.at(-1)!;
  return success({
    widened: before,
    text: addition,
    row,
    warnings: row.action === 'tank' ? tankWarnings([row]) : [],
    standing,
    batch: standing.batch(full.batch) ?? null,
    stagesFrom,
  });
}

/** The present rows, and the stages with which the log can be read; null if they are the log's own. */
function readPresent(
  text: string,
  line: LoggedLine | null,
  usual: readonly string[],
): { reading: Result<SeasonLog, LogFault>; stages: readonly string[] | null; stagesFrom: StagesFrom } {
  if (line !== null) {
    return { reading: readLog(text, line.stages, line.crops), stages: line.stages, stagesFrom: 'line' };
  }
  const reading = readLog(text, usual);
  if (reading.ok) {
    const moved = reading.value.rows.some(({ action }) => action === 'move');
    return { reading, stages: usual, stagesFrom: moved ? 'log' : 'guess' };
  }
  return { reading: readLog(text, null), stages: null, stagesFrom: 'log' };
}

/** How the file is written with the columns that a row of the tank needs. @returns also the columns that are new to it */
function withTank(dialect: Dialect, action: string): { dialect: Dialect; more: readonly Column[] } {
  const more = action === 'tank' ? TANK_COLUMNS.filter((name) => !dialect.columns.includes(name)) : [];
  return { dialect: { ...dialect, columns: [...dialect.columns, ...more] }, more };
}

/** What was left out and follows from the log: a new batch's name, the crop, the one stage that it can be. */
function completed(typed: Typed, reading: SeasonLog, stagesFrom: StagesFrom, tell: Tell): Typed {
  if (typed.action === 'sow') {
    // Only a line that was named is written down: the log would be bound to a guess.
    const stage = stagesFrom === 'line' ? reading.stages[route.first(reading)]! : '';
    return { ...typed, batch: typed.batch || nextName(reading.standing), stage: typed.stage || stage };
  }
  const batch = reading.standing.batch(typed.batch);
  if (batch === undefined || typed.action === 'tank') return typed;
  const full = { ...typed, crop: typed.crop || batch.crop };
  if (typed.stage !== '') return full;
  if (typed.action === 'pick') return { ...full, stage: reading.stages[route.last(reading)]! };
  if (typed.action !== 'move' && typed.action !== 'lose') return full;
  return { ...full, stage: onlyStage(typed.action, batch, reading.stages, tell) };
}

/** The stage that a move or a loss can only mean; empty, with a fault, if there is none or more than one. */
function onlyStage(
  action: 'move' | 'lose',
  batch: BatchStanding,
  stages: readonly string[],
  tell: Tell,
): string {
  const among = [...stages.keys()].filter((place) => action === 'lose' || !route.isLast({ stages }, place));
  const places = among.filter((place) => batch.standing[place]! > 0);
  const meant = places.map((place) => stages[action === 'move' ? route.next({ stages }, place) : place]!);
  if (meant.length === 1) return meant[0]!;
  const what = action === 'move' ? 'the stage moved into' : 'the stage that they stood in';
  const standing = places.map((place) => `${batch.standing[place]} in ${stages[place]}`).join(', ');
  const where = action === 'move' ? 'before the last stage' : 'in the line';
  tell({
    column: 'stage',
    found: 'nothing',
    expected: meant.length === 0 ? what : `${what}: ${meant.join(' or ')}`,
    advice:
      meant.length === 0
        ? `No plant of ${batch.name} stands ${where}.`
        : `Of ${batch.name} there are ${standing}.`,
  });
  return '';
}

/** The next number that no batch has: B1, B2, ... */
function nextName(standing: Standing): string {
  const numbers = standing.batches().map(({ name }) => Number(/^B(\d{1,9})$/i.exec(name)?.[1] ?? 0));
  return `B${numbers.reduce((most, number) => Math.max(most, number), 0) + 1}`;
}

/** Every typed value has a column of the file to stand in, and a meaning there. */
function checkPlaces(typed: Typed, { columns }: Dialect, tell: Tell): void {
  if (typed.grams !== '' && typed.action !== 'pick' && typed.action !== 'tank') {
    const expected = 'nothing, for only what is picked is weighed';
    tell({ column: 'grams', found: fieldText(typed.grams), expected });
  }
  // In the reader's words, which sees them only if the file has the column.
  const { columns: empty, ...why } = emptyIn(typed.action);
  for (const column of empty) {
    if (typed[column] !== '') tell({ column, found: fieldText(typed[column]), ...why });
  }
  for (const column of ALL_COLUMNS) {
    if (typed[column] === '' || empty.includes(column) || columns.includes(column)) continue;
    tell({
      column,
      found: fieldText(typed[column]),
      expected: `nothing, for the log has no column ${column}`,
      advice: `Add ${column} to its header line, and an empty field to each row, or leave it out.`,
    });
  }
}

/** The date, if it can be that of the next row; else the last row's, so that the rest of the row can be looked at. */
function checkedDate(date: string, present: SeasonLog, tell: Tell): string {
  const last = lastDate(present) ?? `${YEARS.least}-01-01`;
  if (!isExpectedDate(date)) {
    const advice = whyNoDate(date) ?? '';
    tell({ column: 'date', found: fieldText(date), expected: EXPECTED_DATE, advice });
    return last;
  }
  if (date >= last) return date;
  tell({
    column: 'date',
    found: fieldText(date),
    expected: `${last} or later, for the last row of the log is of that day`,
    advice: 'Rows are added at the end. What was done earlier can be put in its place with an editor.',
  });
  return last;
}

/** A row in the file's own way, without its end. */
function rowText(typed: Typed, { separator, columns, dates }: Dialect): string {
  const values: Typed = {
    ...typed,
    date: inForm(typed.date, dates),
    grams: decimal(typed.grams, separator),
    litres: decimal(typed.litres, separator),
    ec: decimal(typed.ec, separator),
  };
  return columns
    .map((column) => (column === null ? '' : fieldFor(values[column].trim(), separator)))
    .join(separator);
}

/** Where columns are parted by semicolons, spreadsheets write and read decimals with a comma. */
function decimal(typed: string, separator: string): string {
  return separator === ';' ? typed.replace(/^(\d+)\.(\d+)$/, '$1,$2') : typed;
}

function fieldFor(value: string, separator: string): string {
  const plain = !value.includes(separator) && !/["\r\n]/.test(value);
  return plain ? value : `"${value.replaceAll('"', '""')}"`;
}

/** The end of line that the last row lacks. */
function missingEnd(text: string): string {
  return text === '' || text === '\uFEFF' || /[\r\n]$/.test(text) ? '' : lineEndOf(text);
}

function lineEndOf(text: string): string {
  return /\r\n|\r|\n/.exec(text)?.[0] ?? '\n';
}

function lineCount(text: string): number {
  return text.match(/\r\n|\r|\n/g)?.length ?? 0;
}
