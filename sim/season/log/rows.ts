/**
 * A season log as data: one row for each thing that was done.
 *
 * The file is CSV with the header `date,action,crop,batch,stage,channel,count,grams,note`, and behind it `litres,ec` if the
 * tank is logged. Here its rows are plain objects with the empty fields filled in where the log itself says what belongs
 * there.
 */

/** What is done with plants and holes. */
const LINE_ACTIONS = ['sow', 'move', 'pick', 'lose', 'clean', 'stand'] as const;

/** What can be logged. */
export const ACTIONS = [...LINE_ACTIONS, 'tank'] as const;

export type LineAction = (typeof LINE_ACTIONS)[number];
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

/** Columns that a file has behind those once the tank is logged. */
export const TANK_COLUMNS = ['litres', 'ec'] as const;

/** All that a file may have. */
export const ALL_COLUMNS = [...COLUMNS, ...TANK_COLUMNS] as const;

/** What was done with plants or holes. */
export interface LogRow {
  /** Line of the file on which the row begins, the header being line 1; 0 for a row that comes from no file. */
  readonly line: number;
  /** ISO 8601 date. */
  readonly date: string;
  readonly action: LineAction;
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

/** What was done with the tank. No plant is touched by it. */
export interface TankRow {
  /** As of a LogRow. */
  readonly line: number;
  /** ISO 8601 date. */
  readonly date: string;
  readonly action: 'tank';
  /** Topped up, or filled in anew [l]; null if not logged. */
  readonly litres: number | null;
  /** Conductivity before topping up [mS/cm]; null if not read. */
  readonly ec: number | null;
  /** Whether the tank was emptied and filled anew, as its note says: these litres do not count as used. */
  readonly changed: boolean;
  /** null if there is none. */
  readonly note: string | null;
}
