/** What each text view says of a plan: studied, looked at and replayed in few seasons. */

import { textOf } from '../../../cli/render/text.js';
import { aheadSections } from '../../../cli/sections/ahead/ahead.js';
import { choresSections } from '../../../cli/sections/chores.js';
import { replaySections } from '../../../cli/sections/replay.js';
import { runSections } from '../../../cli/sections/run.js';
import { checkText } from '../../../cli/views/check-text.js';
import { compareText } from '../../../cli/views/compare-text.js';
import { isoOfDay } from '../../../sim/models/dates.js';
import { holesOf, type Plan } from '../../../sim/models/plan.js';
import { type AheadResult, lookAhead } from '../../../sim/season/ahead/ahead.js';
import { type ChoresResult, listChores } from '../../../sim/season/ahead/chores.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { replaySeason } from '../../../sim/season/replay/replay.js';
import type { ReplayResult } from '../../../sim/season/replay/result.js';
import { gather } from '../../../sim/seasons/gather.js';
import { compareStudy } from '../../../sim/study/compare.js';
import { type RunResult, runStudy } from '../../../sim/study/summary.js';
import { simulatedLog } from '../../support/simulated-log.js';

const SEASONS = 8;

export async function runOf(plan: Plan): Promise<RunResult> {
  const study = runStudy(plan, plan.seed, SEASONS);
  return study.conclude(await gather(study.workload))!;
}

/** @param day of the season that is today [d] */
export async function aheadOf(
  plan: Plan,
  day: number,
  { weeks = 4, rows = simulatedLog(plan, 1, 0, { until: day }) as readonly LogRow[] } = {},
): Promise<AheadResult> {
  const today = isoOfDay(plan.start, day);
  const reading = await lookAhead(plan, rows, { today, weeks, futures: SEASONS });
  if (reading === 'stopped' || !reading.ok) throw new Error(JSON.stringify(reading));
  return reading.result;
}

/** @param day of the season that is today [d] */
export async function choresOf(
  plan: Plan,
  day: number,
  { rows = simulatedLog(plan, 1, 0, { until: day }) as readonly LogRow[] } = {},
): Promise<ChoresResult> {
  const today = isoOfDay(plan.start, day);
  const reading = await listChores(plan, rows, { today, days: 14, futures: SEASONS });
  if (reading === 'stopped' || !reading.ok) throw new Error(JSON.stringify(reading));
  return reading.result;
}

/** @param of the line that the log is told of, if it is not that of the plan */
export function replayOf(plan: Plan, of = plan): ReplayResult {
  const names = plan.stages.map(({ name }) => name);
  const change = { every: 4, on: null, seeds: null };
  const replayed = replaySeason(simulatedLog(of, 1, 0), names, plan, { change });
  if (!replayed.ok) throw new Error(JSON.stringify(replayed.faults));
  return replayed.result;
}

/** The texts of all views that take a plan. @param day of the season from which is looked ahead [d] */
export async function allTexts(plan: Plan, day: number): Promise<Record<string, string>> {
  const contenders = ['every 2 d', 'every 3 d'].map((name) => ({ name, plan }));
  const comparison = compareStudy(contenders, plan.seed, SEASONS, null);
  return {
    run: textOf(runSections(await runOf(plan))),
    compare: compareText(comparison.conclude(await gather(comparison.workload))!),
    check: checkText('my-line.yaml', plan, plan.stages.map(holesOf)),
    ahead: textOf(aheadSections(await aheadOf(plan, day))),
    chores: textOf(choresSections(await choresOf(plan, day))),
    replay: textOf(replaySections(replayOf(plan))),
  };
}
