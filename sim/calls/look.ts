/** `ahead` and `chores`: what comes, from what stands by the log. */

import { SEED, wholeWithin } from '../models/limits.js';
import type { Plan } from '../models/plan.js';
import type { Result } from '../models/result.js';
import { toPlan } from '../scenario/plan.js';
import type { Scenario } from '../scenario/schema.js';
import { absenceRuns, weeksUntilThrown } from '../season/ahead/absence.js';
import { type AheadResult, lookAhead, runsAhead, weeksNeeded } from '../season/ahead/ahead.js';
import { type ChoresResult, listChores, weeksToList } from '../season/ahead/chores.js';
import type { LookOptions } from '../season/ahead/coming-season.js';
import type { LogFault } from '../season/log/faults.js';
import type { SeasonLog } from '../season/log/read.js';
import type { LogRow } from '../season/log/rows.js';
import { defaultSeasons, USUAL_DAYS, USUAL_WEEKS } from '../seasons/how-many.js';
import { startThreads } from '../seasons/threads.js';
import { pauseOf, type StudyOptions, untilStopped, workersOf } from './carry-out.js';
import { lengthenedPlan } from './lengthened.js';

/** From when is looked, and how it is carried out. All of it may be left out. */
export interface FuturesOptions extends Omit<StudyOptions, 'seasons'> {
  /** Today, ISO 8601. Left out: the date of the last row, or the start of the season. */
  readonly today?: string;
  /** Futures to simulate, at least 1. Left out: 200, fewer of a very large line. */
  readonly futures?: number;
}

/**
 * The next weeks from what stands by the log: heads, empty holes, batches without room, what to sow.
 *
 * @param log as `readSeasonLog` hands it out for the scenario's plan
 * @param options `weeks` to look ahead, at least 1; left out: 8
 * @returns faults if the log does not fit the scenario
 * @throws RangeError if an option is out of range; the signal's reason if it was stopped
 * @example
 * ```ts
 * const looked = await ahead(scenario, log, { today: '2027-03-15', weeks: 6 });
 * if (looked.ok) console.log(looked.value.weeks[0]!.picked.p50);
 * ```
 */
export async function ahead(
  scenario: Scenario,
  log: SeasonLog,
  options: FuturesOptions & { readonly weeks?: number } = {},
): Promise<Result<AheadResult, LogFault>> {
  const { weeks = USUAL_WEEKS, today = null } = options;
  return looked(scenario, options, aheadFrom(scenario, log.rows, today, weeks));
}

/**
 * The work of the coming visits: what to clear, pick, move, sow and clean, with the number that is expected and a range.
 *
 * @param log as `readSeasonLog` hands it out for the scenario's plan; null: the plan from an empty line
 * @param options `days` to list, at least 1; left out: 14
 * @returns faults if the log does not fit the scenario
 * @throws RangeError if an option is out of range; the signal's reason if it was stopped
 * @example
 * ```ts
 * const listed = await chores(scenario, log, { today: '2027-03-15', days: 7 });
 * if (listed.ok) for (const visit of listed.value.visits) console.log(visit.date, visit.chores.length);
 * ```
 */
export async function chores(
  scenario: Scenario,
  log: SeasonLog | null,
  options: FuturesOptions & { readonly days?: number } = {},
): Promise<Result<ChoresResult, LogFault>> {
  const { days = USUAL_DAYS, today = null } = options;
  return looked(scenario, options, choresFrom(scenario, log?.rows ?? [], today, days));
}

/** A look at what comes, from where the log ends, ready to be taken. */
export interface Look<Told> {
  /** About how many futures are run for so many that are asked for. */
  readonly runsOf: (futures: number) => number;
  /** @returns null if it was stopped */
  readonly take: (options: LookOptions) => Promise<Result<Told, LogFault> | null>;
}

export function aheadFrom(
  scenario: Scenario,
  rows: readonly LogRow[],
  today: string | null,
  weeks: number,
): Look<AheadResult> {
  const needed = (short: Plan, from: number): number => weeksNeeded(short, from, weeks);
  const plan = lengthenedPlan(scenario, rows, today, needed);
  const attended = attendedPlan(scenario, rows, today, needed);
  return {
    runsOf: (futures) => runsAhead(futures) + (attended === null ? 0 : absenceRuns(futures)),
    take: (options) => lookAhead(plan, rows, { ...options, weeks, attended }),
  };
}

export function choresFrom(
  scenario: Scenario,
  rows: readonly LogRow[],
  today: string | null,
  days: number,
): Look<ChoresResult> {
  const needed = (short: Plan, from: number): number =>
    scenario.away.length === 0 ? weeksToList(from, days) : weeksUntilThrown(short, from + days);
  const plan = lengthenedPlan(scenario, rows, today, needed);
  const attended = attendedPlan(scenario, rows, today, needed);
  return {
    runsOf: (futures) => futures + (attended === null ? 0 : absenceRuns(futures)),
    take: (options) => listChores(plan, rows, { ...options, days, attended }),
  };
}

/** The plan with nobody away; null if it has no absence. */
function attendedPlan(scenario: Scenario, ...rest: Tail<Parameters<typeof lengthenedPlan>>): Plan | null {
  return scenario.away.length === 0 ? null : lengthenedPlan({ ...scenario, away: [] }, ...rest);
}

type Tail<List extends unknown[]> = List extends [unknown, ...infer Rest] ? Rest : never;

/** How a look is taken. */
interface Manner extends Pick<LookOptions, 'today' | 'futures' | 'threads'> {
  readonly seed: number | undefined;
  /** Told how many of about how many futures are run; says to stop by a promise of false. */
  readonly step: ((done: number, all: number) => Promise<boolean> | null) | undefined;
}

/** Take a look: every caller's way to one. @returns null if it was stopped */
export function taken<Told>({ runsOf, take }: Look<Told>, { seed, step, ...manner }: Manner) {
  const all = runsOf(manner.futures);
  let done = 0;
  return take({
    ...manner,
    ...(seed === undefined ? {} : { seed }),
    pause: (more) => {
      done += more;
      return step?.(Math.min(done, all), all) ?? null;
    },
  });
}

async function looked<Told>(
  scenario: Scenario,
  options: FuturesOptions,
  look: Look<Told>,
): Promise<Result<Told, LogFault>> {
  const { today = null, seed } = options;
  const futures = options.futures ?? defaultSeasons(toPlan(scenario));
  wholeWithin('futures', futures, { least: 1, most: Number.MAX_SAFE_INTEGER });
  if (seed !== undefined) wholeWithin('seed', seed, SEED);
  const workers = workersOf(options);
  const threads = workers === 1 ? null : await startThreads(workers);
  return untilStopped(
    options.signal,
    async () => threads?.close(),
    () => taken(look, { today, futures, seed, step: pauseOf(options), threads: async () => threads }),
  );
}
