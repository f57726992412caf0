/**
 * A season log as data: one row for each thing that was done.
 *
 * The file is CSV with the header `date,action,crop,batch,stage,channel,count,grams,note`. Here its rows are plain
 * objects with the empty fields filled in where the log itself says what belongs there.
 */

/** What can be logged. */
export const ACTIONS = ['sow', 'move', 'pick', 'lose', 'clean', 'stand'] as const;

export type LogAction = (typeof ACTIONS)[number];

/** Columns of the file, in their order. */
export const COLUMNS = [
  'date',
  'action',
  'crop',
  'batch',
  'stage',
  'channel',
  'count',
  'grams',
  'note',
] as const;

export interface LogRow {
  /** Line of the file on which the row begins, the header being line 1; 0 for a row that comes from no file. */
  readonly line: number;
  /** ISO 8601 date. */
  readonly date: string;
  readonly action: LogAction;
  /** Empty only for `clean`. Taken from the batch's first row where the file leaves it out. */
  readonly crop: string;
  /** Name of the sowing whose plants these are; empty only for `clean`. */
  readonly batch: string;
  /**
   * `sow`: the first stage. `move`: the stage moved into. `pick`: the last stage. `lose`, `clean` and `stand`: the
   * stage itself. Never empty.
   */
  readonly stage: string;
  /** null if not logged. */
  readonly channel: string | null;
  /** Seeds (`sow`), plants (`move`, `pick`, `lose`, `stand`) or holes (`clean`). */
  readonly count: number;
  /** Fresh mass of a whole pick [g]; null if not weighed. */
  readonly grams: number | null;
  /** null if there is none. Of a `stand` row it may say since when the plants stand there (see since.ts). */
  readonly note: string | null;
}
