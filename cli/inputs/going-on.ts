/**
 * What `ahead` and `chores` have in common: a scenario, a log, today, and futures that take a while.
 */

import { dayFrom, isIsoDate, whyNoDate } from '../../sim/models/dates.js';
import type { Plan } from '../../sim/models/plan.js';
import { toPlan } from '../../sim/scenario/plan.js';
import type { Pause } from '../../sim/season/ahead/futures.js';
import type { LogRow } from '../../sim/season/log/rows.js';
import { Progress } from '../io/progress.js';
import { Interrupt, today } from '../io/streams.js';
import { checkInputs } from '../io/text-file.js';
import { checkOut, type Options, type SeasonOptions, seasonOptions } from '../options/options.js';
import { type Loaded, loadScenario, scenarioInput } from './scenario-file.js';
import { loadSeasonLog } from './season-log.js';

/** A scenario, and its log so far. */
export interface Going {
  readonly scenario: Loaded;
  /** Of the log's file, for messages. */
  readonly name: string;
  readonly rows: readonly LogRow[];
}

/** What is read, and where the result goes. */
export interface Reading {
  /** For examples. */
  readonly command: string;
  /** Path of the scenario, or `-` for standard input. */
  readonly file: string;
  /** Path of the log, or `-`; if undefined, nothing was done yet. */
  readonly log: string | undefined;
  /** File for the result; null for standard output. */
  readonly out: string | null;
}

/** @throws Problem if the scenario or the log is wrong, or the result may not be written where it is to go */
export async function loadGoing({ command, file, log, out }: Reading): Promise<Going> {
  checkInputs('the scenario and the log', [file, log], `evensow ${command} my-line.yaml - < season.csv`);
  const logs = log === undefined ? [] : [{ path: log, what: 'the log' }];
  await checkOut(out, [scenarioInput(file), ...logs]);
  const scenario = await loadScenario(file);
  if (log === undefined) return { scenario, name: '', rows: [] };
  const { name, rows } = await loadSeasonLog(log, scenario.plan);
  return { scenario, name, rows };
}

/**
 * The scenario's plan, made as long as is needed: the line goes on, whatever the length of its season.
 * @param today ISO 8601; if null, the date of the last row, or the start
 * @param weeks weeks that the plan must have, by the first day to come [d from the start]
 */
export function lengthened(
  { scenario, rows }: Going,
  today: string | null,
  weeks: (plan: Plan, from: number) => number,
): Plan {
  const { plan } = scenario;
  // A log that begins before the season is a fault, which is told with the season as the scenario has it.
  if (rows[0] !== undefined && rows[0].date < plan.start) return plan;
  const day = dayFrom(plan.start, today ?? rows.at(-1)?.date ?? plan.start);
  // Today's visit may be over or not: one day more does no harm.
  const needed = weeks(plan, Math.max(0, day + 1));
  return needed <= plan.weeks ? plan : toPlan({ ...scenario.scenario, weeks: needed });
}

/** Options of both commands, checked. */
export interface GoingOptions extends SeasonOptions {
  readonly today: string | null;
}

/** @param faults takes a sentence for each wrong option */
export function goingOptions(options: Options, faults: string[]): GoingOptions {
  return {
    today: dateOf(options['today'], faults),
    ...seasonOptions(options, faults),
  };
}

/** The word for the date of this machine. */
const NOW = 'now';

function dateOf(text: string | undefined, faults: string[]): string | null {
  if (text === undefined) return null;
  if (text === NOW) return today();
  if (isIsoDate(text) && text >= '1900' && text < '3000') return text;
  const why = whyNoDate(text);
  faults.push(
    `--today must not be ${JSON.stringify(text)}. It must be an existing date as YYYY-MM-DD, or ${NOW} for the date of this machine.${why === null ? '' : ` ${why}`} Example: --today 2027-03-15`,
  );
  return null;
}

/**
 * Do some work that runs futures, with a bar on a terminal, until it is done or somebody stops it.
 * @param runs about how many futures it runs
 */
export async function withProgress<T>(runs: number, work: (pause: Pause) => Promise<T>): Promise<T> {
  const interrupt = new Interrupt();
  const progress = new Progress(interrupt);
  let done = 0;
  try {
    return await work(() => progress.step(Math.min(runs, ++done), runs));
  } finally {
    progress.clear();
    interrupt.release();
  }
}
