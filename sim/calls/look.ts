/** `ahead` and `chores`: what comes, from what stands by the log. */

import type { Result } from '../models/result.js';
import { toPlan } from '../scenario/plan.js';
import type { Scenario } from '../scenario/schema.js';
import { type AheadResult, lookAhead, runsAhead, weeksNeeded } from '../season/ahead/ahead.js';
import { type ChoresResult, listChores, weeksToList } from '../season/ahead/chores.js';
import type { LookOptions } from '../season/ahead/coming-season.js';
import type { LogFault } from '../season/log/faults.js';
import type { SeasonLog } from '../season/log/read.js';
import { defaultSeasons } from '../seasons/how-many.js';
import { startThreads } from '../seasons/threads.js';
import { pauseOf, type StudyOptions, untilStopped, whole, workersOf } from './carry-out.js';
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
  const { weeks = 8, today = null } = options;
  const plan = lengthenedPlan(scenario, log.rows, today, (short, from) => weeksNeeded(short, from, weeks));
  return looked(scenario, options, runsAhead, (look) => lookAhead(plan, log.rows, { ...look, weeks }));
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
  const { days = 14, today = null } = options;
  const rows = log?.rows ?? [];
  const plan = lengthenedPlan(scenario, rows, today, (_, from) => weeksToList(from, days));
  return looked(
    scenario,
    options,
    (futures) => futures,
    (look) => listChores(plan, rows, { ...look, days }),
  );
}

async function looked<Told>(
  scenario: Scenario,
  options: FuturesOptions,
  runsOf: (futures: number) => number,
  look: (options: LookOptions) => Promise<Result<Told, LogFault> | null>,
): Promise<Result<Told, LogFault>> {
  const { today = null, futures, seed } = options;
  const pause = pauseOf(options);
  const count = futures ?? defaultSeasons(toPlan(scenario));
  const all = runsOf(whole('futures', count, 1, Number.MAX_SAFE_INTEGER));
  const workers = workersOf(options);
  const threads = workers === 1 ? null : await startThreads(workers);
  let done = 0;
  return untilStopped(
    options.signal,
    async () => threads?.close(),
    () =>
      look({
        today,
        futures: count,
        ...(seed === undefined ? {} : { seed: whole('seed', seed, 0, Number.MAX_SAFE_INTEGER) }),
        pause: (more) => {
          done += more;
          return pause?.(Math.min(done, all), all) ?? null;
        },
        threads: async () => threads,
      }),
  );
}
