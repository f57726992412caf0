/** What is said of a plan: studied, looked at and replayed in few seasons. */

import { textOf } from '../../../cli/render/text.js';
import { aheadSections } from '../../../cli/sections/ahead/ahead.js';
import { checkSections } from '../../../cli/sections/check.js';
import { choresSections } from '../../../cli/sections/chores.js';
import { compareSections } from '../../../cli/sections/compare.js';
import { replaySections } from '../../../cli/sections/replay.js';
import { runSections } from '../../../cli/sections/run.js';
import { searchSections } from '../../../cli/sections/search/search.js';
import type { Section } from '../../../cli/sections/section.js';
import { sizeSections } from '../../../cli/sections/size/size.js';
import { isoOfDay } from '../../../sim/models/dates.js';
import { holesOf, type Plan } from '../../../sim/models/plan.js';
import { type AheadResult, lookAhead } from '../../../sim/season/ahead/ahead.js';
import { type ChoresResult, listChores } from '../../../sim/season/ahead/chores.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { replaySeason } from '../../../sim/season/replay/replay.js';
import type { ReplayResult } from '../../../sim/season/replay/result.js';
import { SeasonRunner } from '../../../sim/seasons/season-runner.js';
import { compareStudy } from '../../../sim/study/compare.js';
import type { Candidate } from '../../../sim/study/search/candidates.js';
import { searchStudy } from '../../../sim/study/search/search.js';
import { type StageCounts, sizesOf } from '../../../sim/study/size/layout.js';
import { sizeStudy } from '../../../sim/study/size/size.js';
import { type Study, WHOLE } from '../../../sim/study/study.js';
import { type RunResult, runStudy } from '../../../sim/study/summary.js';
import { simulatedLog } from '../../support/simulated-log.js';

const SEASONS = 8;

export async function runOf(plan: Plan): Promise<RunResult> {
  return await concluded(runStudy(plan, plan.seed, SEASONS));
}

/** @param day of the season that is today [d] */
export async function aheadOf(
  plan: Plan,
  day: number,
  { weeks = 4, rows = simulatedLog(plan, 1, 0, { until: day }) as readonly LogRow[] } = {},
): Promise<AheadResult> {
  const today = isoOfDay(plan.start, day);
  const reading = await lookAhead(plan, rows, { today, weeks, futures: SEASONS });
  if (reading === null || !reading.ok) throw new Error(JSON.stringify(reading));
  return reading.value;
}

/** @param day of the season that is today [d] */
export async function choresOf(
  plan: Plan,
  day: number,
  { rows = simulatedLog(plan, 1, 0, { until: day }) as readonly LogRow[] } = {},
): Promise<ChoresResult> {
  const today = isoOfDay(plan.start, day);
  const reading = await listChores(plan, rows, { today, days: 14, futures: SEASONS });
  if (reading === null || !reading.ok) throw new Error(JSON.stringify(reading));
  return reading.value;
}

/** @param of the line that the log is told of, if it is not that of the plan */
export function replayOf(plan: Plan, of = plan): ReplayResult {
  const names = plan.stages.map(({ name }) => name);
  const change = { every: 4, on: null, seeds: null };
  const replayed = replaySeason(simulatedLog(of, 1, 0), names, plan, { change });
  if (!replayed.ok) throw new Error(JSON.stringify(replayed.faults));
  return replayed.value;
}

/** What each kind of study says of a plan. */
export async function studySections(plan: Plan): Promise<Record<string, readonly Section[]>> {
  const contenders = ['every 2 d', 'every 3 d'].map((name) => ({ name, plan }));
  const [, , last] = plan.stages;
  const layout = { kind: 'channels', stages: [] as StageCounts[] } as const;
  for (const { name, channels } of plan.stages.slice(0, 2))
    layout.stages.push({ stage: name, counts: [channels, channels + 1, channels + 2] });
  const sizes = sizesOf(plan, layout);
  if (Array.isArray(sizes)) throw new Error(sizes.join());
  const candidates = [1, 2].map((more): Candidate => {
    const settings = { every: more, seeds: 12, channels: { [last!.name]: more }, visits: ['mon', 'thu'] };
    return {
      name: `every ${more} d, ${more} x ${last!.name}`,
      settings,
      plan,
      seedsAWeek: 7,
      visitsAWeek: 2,
    };
  });
  const goal = {
    heads: 1,
    weeksMet: 0.2,
    least: 'holes',
    confidence: 0.9,
    near: 0.1,
    runners: 2,
    first: 10,
  } as const;
  const [few, around] = [2, { around: true }];
  return {
    run: runSections(await runOf(plan)),
    compare: compareSections(await concluded(compareStudy(contenders, plan.seed, SEASONS, null))),
    check: checkSections('my-line.yaml', plan, plan.stages.map(holesOf)),
    size: sizeSections(await concluded(sizeStudy(plan, sizes, layout.kind, plan.seed, few))),
    search: searchSections(await concluded(searchStudy(candidates, goal, plan.seed)), around),
  };
}

async function concluded<Yield, Result>(study: Study<Yield, Result>): Promise<Result> {
  return study.conclude(await study.carryOut(new SeasonRunner(study.workload), WHOLE))!;
}

/** The texts of all that takes a plan. @param day of the season from which is looked ahead [d] */
export async function allTexts(plan: Plan, day: number): Promise<Record<string, string>> {
  return {
    ahead: textOf(aheadSections(await aheadOf(plan, day))),
    chores: textOf(choresSections(await choresOf(plan, day))),
    replay: textOf(replaySections(replayOf(plan))),
  };
}
