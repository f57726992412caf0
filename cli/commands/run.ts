/** `evensow run [FILE]`: simulate many seasons and say what comes of it. */

import type { Plan } from '../../sim/models/plan.js';
import { Baseline, findLimits, trialSeasons } from '../../sim/study/limits.js';
import { defaultSeasons, replicate } from '../../sim/study/replicate.js';
import { type RunResult, summarise } from '../../sim/study/summary.js';
import { firstRunningWeek } from '../../sim/study/tallies.js';
import { Progress } from '../progress.js';
import { loadScenario } from '../scenario-file.js';
import { DONE, INTERRUPTED, Interrupt, print, tell } from '../streams.js';
import { runCsv } from '../views/run-csv.js';
import { runJson } from '../views/run-json.js';
import { runText } from '../views/run-text.js';

export interface RunOptions {
  /** Number of seasons; by the size of the line if left out. */
  readonly seasons?: number;
  /** Overrides the scenario's seed. */
  readonly seed?: number;
  readonly form: 'text' | 'json' | 'csv';
}

export async function run(file: string | undefined, options: RunOptions): Promise<number> {
  const { plan } = await loadScenario(file);
  const seasons = options.seasons ?? defaultSeasons(plan);
  const seed = options.seed ?? plan.seed;
  const interrupt = new Interrupt();
  const result = await study(plan, seed, seasons, interrupt);
  interrupt.release();
  if (result === null) {
    tell('evensow: stopped before the first season was over; there is nothing to show.');
    return INTERRUPTED;
  }
  if (interrupt.stopped)
    tell(`evensow: stopped; what was known by then is shown (${result.seasons} of ${seasons} seasons).`);
  await print(view(result, options.form));
  return interrupt.stopped ? INTERRUPTED : DONE;
}

/** @returns what is known when all seasons are run or the user stops; null if that is nothing */
async function study(
  plan: Plan,
  seed: number,
  seasons: number,
  interrupt: Interrupt,
): Promise<RunResult | null> {
  const progress = new Progress(interrupt);
  const baseline = new Baseline(plan, trialSeasons(seasons));
  const tallies = await replicate(plan, {
    seasons,
    seed,
    watch: (season) => baseline.add(season),
    pause: (done) => progress.step(done, seasons, 'seasons'),
  });
  const limits = interrupt.stopped
    ? null
    : await findLimits(plan, seed, baseline, firstRunningWeek(tallies), (done, all) =>
        progress.step(done, all, 'seasons of trials'),
      );
  progress.clear();
  if (tallies.seasons === 0) return null;
  return summarise(plan, seed, tallies, limits, tallies.seasons < seasons);
}

function view(result: RunResult, form: RunOptions['form']): string {
  switch (form) {
    case 'text':
      return runText(result);
    case 'json':
      return runJson(result);
    case 'csv':
      return runCsv(result);
  }
}
