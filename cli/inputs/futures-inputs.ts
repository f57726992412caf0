/**
 * What `ahead` and `chores` have in common: a scenario, a log, today, and futures that take a while.
 */

import { isWithinReach, type Look, taken } from '../../sim/calls/look.js';
import { WEEKS } from '../../sim/models/limits.js';
import type { Plan } from '../../sim/models/plan.js';
import type { LookTold } from '../../sim/season/ahead/look-errand.js';
import type { LogRow } from '../../sim/season/log/rows.js';
import { defaultSeasons } from '../../sim/seasons/how-many.js';
import { startThreads } from '../../sim/seasons/threads.js';
import { tell } from '../io/streams.js';
import { todayOf } from '../options/dates.js';
import {
  checkOut,
  futureFaults,
  type Options,
  type SeasonOptions,
  seasonOptions,
  workersOf,
} from '../options/options.js';
import { Problem } from '../problem.js';
import type { Telling } from '../words/assumed.js';
import { faultsProblem } from './faults-problem.js';
import { type AHEAD, type CHORES, loadLineFiles } from './line-files.js';
import { type Loaded, nameOf } from './scenario-file.js';
import { seasonRows } from './season-log.js';
import { onThreads } from './threads.js';

/** A scenario, and its log so far. */
export interface LoadedLine {
  readonly scenario: Loaded;
  /** Of the log's file, for messages. */
  readonly name: string;
  readonly rows: readonly LogRow[];
}

/**
 * @param named paths of the scenario and the log, in any order
 * @param out file for the result; null for standard output
 * @throws Problem if the scenario or the log is wrong, or the result may not be written where it is to go
 */
export async function loadLine(
  reader: typeof AHEAD | typeof CHORES,
  named: readonly (string | undefined)[],
  out: string | null,
): Promise<LoadedLine> {
  const { scenario, log, inputs } = await loadLineFiles(reader, named);
  await checkOut(out, inputs);
  // Both need a scenario.
  const line = scenario as Loaded;
  if (log === null) return { scenario: line, name: '', rows: [] };
  const { name, rows } = seasonRows(log, line);
  return { scenario: line, name, rows };
}

/** Options of both commands, checked. */
export interface FuturesOptions extends SeasonOptions {
  readonly today: string | null;
  readonly workers: number | undefined;
}

/** How much is told of a line, and which files the commands that are told name. */
export function tellingOf({ all = false }: Options, { name, scenario }: LoadedLine): Telling {
  const path = (file: string): string | null => (file === '' || file === nameOf('-') ? null : file);
  return { all, log: path(name), line: path(scenario.source.name) };
}

/** @param faults takes a sentence for each wrong option */
export function futuresOptions(options: Options, faults: string[]): FuturesOptions {
  return {
    today: todayOf(options['today'], faults),
    ...seasonOptions(options, faults),
    workers: workersOf(options, faults),
  };
}

/** What is wrong with a today that no season of the line can reach. */
function farAhead(today: string | null, { start }: Plan): string[] {
  if (today === null || isWithinReach(today, start)) return [];
  return [
    `--today must not be ${today}. It must be within ${WEEKS.most} weeks, the longest season, of the start of the scenario (${start}). Is one of the two of another year?`,
  ];
}

/**
 * Take a look, with a bar on a terminal, until it is done or somebody stops it.
 * @returns null if somebody stopped it, which is told
 * @throws Problem if the log does not fit the plan
 */
export async function lookInto<Name extends keyof LookTold>(
  { scenario, name }: LoadedLine,
  { today, seasons, seed, workers }: FuturesOptions,
  look: Look<Name>,
): Promise<LookTold[Name] | null> {
  const futures = seasons ?? defaultSeasons(scenario.plan);
  const faults = futureFaults(futures, workers);
  faults.push(...farAhead(today, scenario.plan));
  if (faults.length > 0) throw new Problem(faults.join('\n'));
  const { result: reading } = await onThreads(workers, ({ threadsFor, keep, step }) =>
    taken(
      look,
      { today, futures, seed, step },
      { threadsFor, start: async (threads) => keep(await startThreads(threads)) },
    ),
  );
  if (reading === null) {
    tell('evensow: stopped before all futures were run; there is nothing to show.');
    return null;
  }
  if (!reading.ok) throw faultsProblem(name, reading.faults);
  return reading.value;
}
