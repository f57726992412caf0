/** `ahead` and `chores`: what comes, from what stands by the log. */

import { MessageChannel } from 'node:worker_threads';
import { sumOf } from '../engine/lists.js';
import { dayFrom, EXPECTED_DATE, isExpectedDate } from '../models/dates.js';
import { LONGEST_SEASON, SEED, WEEKS, wholeWithin } from '../models/limits.js';
import { holesOfLine, type Plan } from '../models/plan.js';
import type { Result } from '../models/result.js';
import { toPlan } from '../scenario/plan.js';
import type { Scenario } from '../scenario/schema.js';
import { absenceRuns, weeksUntilThrown } from '../season/ahead/absence.js';
import { type AheadResult, runsAhead, weeksNeeded } from '../season/ahead/ahead.js';
import { type ChoresResult, weeksToList } from '../season/ahead/chores.js';
import type { LookOptions } from '../season/ahead/coming-season.js';
import { type LookAsked, type LookErrand, type LookTold, lookTaken } from '../season/ahead/look-errand.js';
import type { LogFault } from '../season/log/faults.js';
import type { SeasonLog } from '../season/log/read.js';
import type { LogRow } from '../season/log/rows.js';
import { defaultSeasons, USUAL_DAYS, USUAL_WEEKS } from '../seasons/how-many.js';
import { startThreads, type Threads, threadsAreThere, threadsThatFit } from '../seasons/threads.js';
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
  checkToday(today, scenario);
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
  checkToday(today, scenario);
  return looked(scenario, options, choresFrom(scenario, log?.rows ?? [], today, days));
}

/** Whether a day can be one of a season that begins at `start`, or lies before it; both ISO 8601. */
export function isWithinReach(day: string, start: string): boolean {
  return dayFrom(start, day) <= LONGEST_SEASON;
}

/** @throws RangeError if it is no date, or none that a season of the scenario can reach */
function checkToday(today: string | null, { start }: Scenario): void {
  if (today === null) return;
  if (!isExpectedDate(today)) throw new RangeError(`today must be ${EXPECTED_DATE}: ${today}`);
  if (!isWithinReach(today, start))
    throw new RangeError(`today must be within ${WEEKS.most} weeks of the start (${start}): ${today}`);
}

/** A look at what comes, from where the log ends, ready to be taken. */
export interface Look<Name extends keyof LookTold> {
  /** About how many futures are run for so many that are asked for. */
  readonly runsOf: (futures: number) => number;
  readonly asked: LookAsked & { readonly look: Name };
}

export function aheadFrom(
  scenario: Scenario,
  rows: readonly LogRow[],
  today: string | null,
  weeks: number,
): Look<'ahead'> {
  const needed = (short: Plan, from: number): number => weeksNeeded(short, from, weeks);
  const plan = lengthenedPlan(scenario, rows, today, needed);
  const attended = attendedPlan(scenario, rows, today, needed);
  return {
    runsOf: (futures) => runsAhead(futures) + (attended === null ? 0 : absenceRuns(futures)),
    asked: { look: 'ahead', plan, rows, attended, weeks },
  };
}

export function choresFrom(
  scenario: Scenario,
  rows: readonly LogRow[],
  today: string | null,
  days: number,
): Look<'chores'> {
  const needed = (short: Plan, from: number): number =>
    scenario.away.length === 0 ? weeksToList(from, days) : weeksUntilThrown(short, from + days);
  const plan = lengthenedPlan(scenario, rows, today, needed);
  const attended = attendedPlan(scenario, rows, today, needed);
  return {
    runsOf: (futures) => futures + (attended === null ? 0 : absenceRuns(futures)),
    asked: { look: 'chores', plan, rows, attended, days },
  };
}

/** The plan with nobody away; null if it has no absence. */
function attendedPlan(scenario: Scenario, ...rest: Tail<Parameters<typeof lengthenedPlan>>): Plan | null {
  return scenario.away.length === 0 ? null : lengthenedPlan({ ...scenario, away: [] }, ...rest);
}

type Tail<List extends unknown[]> = List extends [unknown, ...infer Rest] ? Rest : never;

/** How a look is taken. */
interface Manner extends Pick<LookOptions, 'today' | 'futures'> {
  readonly seed: number | undefined;
  /** Told how many of about how many futures are run; says to stop by a promise of false. */
  readonly step: ((done: number, all: number) => Promise<boolean> | null) | undefined;
}

/** Threads that a look may have. */
export interface Hands {
  /** Start so many; whoever gives them lets go of them, and of the look with them if somebody stops it. */
  readonly start: (threads: number) => Promise<Threads>;
  /**
   * How many a look is to have; 0: it runs all futures on the thread on which it is taken.
   * @param plants that all futures together bring about @param atOnce those of one future
   */
  readonly threadsFor: (plants: number, atOnce: number) => number;
}

/** Of more plants in a log it takes longer than a tenth of a second, at one go, to draw what stands (see initial-states.ts). */
const BRIEF_LOG = 4000;

/**
 * Take a look: every caller's way to one. On this thread, or, where that would be deaf for long to who wants to stop it, on another.
 * @returns null if it was stopped
 */
export async function taken<Name extends keyof LookTold>(
  { runsOf, asked }: Look<Name>,
  { today, futures, seed, step }: Manner,
  { start, threadsFor }: Hands,
): Promise<Result<LookTold[Name], LogFault> | null> {
  const pause = counting(runsOf(futures), step);
  const options = { today, futures, ...(seed === undefined ? {} : { seed }) };
  const logged = plantsIn(asked.rows);
  // The line with room for all (blocked-cost.ts) has about twice the holes.
  const fitting = (count: number): number =>
    count === 0 ? 0 : threadsThatFit(count, 2 * holesOfLine(asked.plan));
  const here = (): ReturnType<typeof lookTaken<Name>> => {
    const threads = async (plants: number): Promise<Threads | null> => {
      const count = fitting(threadsFor(plants, plants / futures));
      return count === 0 ? null : start(count);
    };
    return lookTaken<Name>(asked, { ...options, pause, threads });
  };
  const count = fitting(threadsFor(logged * futures, 0));
  // Bundled without the file of the threads, this one is deaf meanwhile.
  if (step === undefined || logged <= BRIEF_LOG || (count === 0 && !threadsAreThere())) return here();
  const { port1, port2: port } = new MessageChannel();
  port1.on('message', (runs: number) => void pause(runs));
  const errand: LookErrand = {
    kind: 'look',
    asked,
    ...options,
    threads: count,
    port,
  };
  try {
    const thread = await start(1);
    return await thread.send(errand, [port]);
  } finally {
    port1.close();
  }
}

/** Plants that a log tells of. */
function plantsIn(rows: readonly LogRow[]): number {
  return sumOf(rows.map(({ action, count }) => (action === 'sow' || action === 'stand' ? count : 0)));
}

/** Counts futures. @param all about how many they will be */
function counting(all: number, step: Manner['step']) {
  let done = 0;
  return (more: number): Promise<boolean> | null => {
    done += more;
    return step?.(Math.min(done, all), all) ?? null;
  };
}

async function looked<Name extends keyof LookTold>(
  scenario: Scenario,
  options: FuturesOptions,
  look: Look<Name>,
): Promise<Result<LookTold[Name], LogFault>> {
  const { today = null, seed } = options;
  const plan = toPlan(scenario);
  const futures = options.futures ?? defaultSeasons(plan);
  wholeWithin('futures', futures, { least: 1, most: Number.MAX_SAFE_INTEGER });
  if (seed !== undefined) wholeWithin('seed', seed, SEED);
  const workers = workersOf(options);
  let threads: Threads | null = null;
  return untilStopped(
    options.signal,
    async () => threads?.close(),
    () =>
      taken(
        look,
        { today, futures, seed, step: pauseOf(options) },
        {
          threadsFor: () => (workers === 1 ? 0 : workers),
          start: async (count) => {
            threads = await startThreads(count);
            // Nobody lets go of threads that were not there yet.
            if (options.signal?.aborted === true) await threads.close();
            return threads;
          },
        },
      ),
  );
}
