/**
 * Reads a season log: text in, rows or all faults of the file out. Opens no files and prints nothing.
 *
 * Two rounds. The first looks at each row by itself. Only then is it known how the file writes dates and what the
 * stages are, so the second looks at the rows one after the other, against what stands in the line.
 */

import { failure, type Result, success } from '../../models/result.js';
import { checkRows, type LoggedCrop } from './check-rows.js';
import { type LogFault, LogFaults, type LogWarning } from './faults.js';
import { type Dialect, readRecords } from './records.js';
import type { LogRow, TankRow } from './rows.js';
import { inferStages } from './stages.js';
import type { Standing } from './standing.js';
import { tankWarnings } from './tank.js';
import { oddCharacter, plainText } from './text.js';

/** What a season log says. */
export interface SeasonLog {
  /** What was done with plants and holes. */
  readonly rows: readonly LogRow[];
  /** What was done with the tank. */
  readonly tank: readonly TankRow[];
  readonly warnings: readonly LogWarning[];
  /** Names of the stages: those given, else those inferred. */
  readonly stages: readonly string[];
  /** What stands after the last row. */
  readonly standing: Standing;
  readonly dialect: Dialect;
}

/**
 * Reads the text of a season log. Never throws on any text.
 *
 * @param text with or without byte order mark; columns between commas, semicolons or tabs
 * @param stages names of the line's stages in their order, at least one; null if no scenario is known: then they
 * are inferred (see stages.ts)
 * @param crops of the scenario; without them every crop is taken as it comes, with one pick per plant
 * @returns what the log says, or every fault of the file, sorted by line
 */
export function readLog(
  text: string,
  stages: readonly string[] | null,
  crops: readonly LoggedCrop[] | null = null,
): Result<SeasonLog, LogFault> {
  const faults = new LogFaults();
  const content = plainText(text);
  const odd = oddCharacter(content);
  if (odd !== null) {
    faults.add({
      line: odd.line,
      column: null,
      found: odd.found,
      expected: 'a text file in UTF-8',
      advice: 'Save the log as CSV in UTF-8.',
    });
    return failure(faults.sorted());
  }
  const warnings: LogWarning[] = [];
  const records = readRecords(content, faults, warnings);
  if (records === null) return failure(faults.sorted());
  const { drafts, tank, dates, dialect } = records;
  const line = stages ?? inferStages(drafts);
  const standing = checkRows(drafts, tank, line, crops, dates, faults);
  if (faults.count > 0) return failure(faults.sorted());
  // Without a fault every draft is a row: its action and its count are there.
  warnings.push(...tankWarnings(tank));
  return success({ rows: drafts as LogRow[], tank, warnings, stages: line, standing, dialect });
}

/** ISO date of the last row of whatever kind; undefined if there is none. */
export function lastDate({ rows, tank }: Pick<SeasonLog, 'rows' | 'tank'>): string | undefined {
  const dates = [rows.at(-1)?.date, tank.at(-1)?.date].filter((date) => date !== undefined);
  return dates.sort().at(-1);
}
