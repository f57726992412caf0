/**
 * What `ahead` and `chores` have in common: a scenario, a log, today, and futures that take a while.
 */

import { dayFrom, isIsoDate, whyNoDate } from '../sim/models/dates.js';
import type { Plan } from '../sim/models/plan.js';
import { toPlan } from '../sim/scenario/plan.js';
import type { Pause } from '../sim/season/ahead/futures.js';
import type { LogRow } from '../sim/season/rows.js';
import { type Options, type SeasonOptions, seasonOptions } from './options.js';
import { Problem } from './problem.js';
import { Progress } from './progress.js';
import { loadScenario, type Read } from './scenario-file.js';
import { loadSeasonLog } from './season-log.js';
import { Interrupt, today } from './streams.js';

/** A scenario, and its log so far. */
export interface Going {
  readonly scenario: Read;
  /** Of the log's file, for messages. */
  readonly name: string;
  readonly rows: readonly LogRow[];
}

/**
 * @param file path of the scenario, or `-` for standard input
 * @param log path of the log, or `-`; if undefined, nothing was done yet
 * @throws Problem if the scenario or the log is wrong
 */
export async function loadGoing(file: string, log: string | undefined): Promise<Going> {
  if (file === '-' && log === '-') {
    throw new Problem(
      'the scenario and the log must not both be read from standard input. One of them must be a file. Example: evensow ahead my-line.yaml - < season.csv',
    );
  }
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
