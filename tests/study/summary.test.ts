/** The result of a run: its figures and their intervals. */

import { expect, test } from 'vitest';
import type { Plan } from '../../sim/models/plan.js';
import { gather } from '../../sim/seasons/gather.js';
import type { Estimate } from '../../sim/seasons/sections.js';
import { compareStudy } from '../../sim/study/compare.js';
import { type RunResult, runStudy } from '../../sim/study/summary.js';
import { crop, every, grow, line, stage, time, visitDays } from '../support/plans.js';

const WEEKS = 15;
const SEED = 5;
/** A crowded line in which much is left to chance. */
const crowded = line(
  [stage('nursery', 20), stage('finishing', 24)],
  [crop([grow(time(7, 0.3), { loss: 0.1, keeps: 3 }), grow(time(14, 0.3))], every(2, WEEKS * 7, 5))],
  { weeks: WEEKS, visits: visitDays(WEEKS, [1, 0, 0]) },
);

async function runOf(plan: Plan, seasons: number): Promise<RunResult> {
  const study = runStudy(plan, SEED, seasons);
  return study.conclude(await gather(study.workload))!;
}

test('figures and intervals are those of a comparison with the same seasons', async () => {
  // More seasons than groups, in groups of unequal size.
  const seasons = 57;
  const run = await runOf(crowded, seasons);
  const study = compareStudy(
    ['this', 'again'].map((name) => ({ name, plan: crowded })),
    SEED,
    seasons,
    null,
  );
  const [plan] = study.conclude(await gather(study.workload))!.plans;
  const compared: Record<string, Estimate | null> = {};
  for (const [name, figure] of Object.entries(plan!.figures)) {
    const { mean, low, high } = figure!;
    compared[name] = { mean, low, high };
  }
  expect(run.figures).toEqual(compared);
  expect(run.figures.seeds_a_head!.low).toBeLessThan(run.figures.seeds_a_head!.mean);
  expect(run.figures.bad_week!.low).toBeLessThan(run.figures.bad_week!.high!);
  run.stages.forEach(({ figures }, s) => {
    expect({ ...figures.idle, difference: null }).toEqual(plan!.idle[s]!.share);
    expect(figures.idle!.low).toBeLessThan(figures.idle!.high!);
  });
});

test('one season has figures without intervals', async () => {
  const { figures, stages } = await runOf(crowded, 1);
  expect(figures.thrown_away).toEqual({ mean: expect.any(Number), low: null, high: null });
  expect(stages[1]!.figures.idle).toEqual({ mean: expect.any(Number), low: null, high: null });
});

test('a line of which nothing is ever picked has no figures of weeks and heads', async () => {
  const never = { ...crowded, crops: [crop([grow(time(60)), grow(time(90))], every(2, WEEKS * 7, 5))] };
  const { running, figures } = await runOf(never, 5);
  expect(running).toBeNull();
  for (const name of ['heads_a_week', 'bad_week', 'seeds_a_head', 'first_pick_day'] as const) {
    expect(figures[name]).toBeNull();
  }
  expect(figures.thrown_away!.mean).toBe(0);
});

test('what is not asked for is not run: seasons with changes, and those without an absence', async () => {
  const days = Array.from({ length: WEEKS }, (_, week) => 7 * week);
  const away = { days: [42, 49], visits: [42, 49] };
  const visits = { kind: 'days' as const, days: days.filter((day) => !away.days.includes(day)), away };
  const plan = { ...crowded, visits };
  const all = runStudy(plan, SEED, 20).workload;
  expect(all.jobs.map(({ seasons, trials }) => [seasons, trials])).toEqual([
    [20, 5],
    [20, 0],
  ]);
  const weeks = runStudy(plan, SEED, 20, true);
  expect(weeks.workload.jobs).toEqual([{ plan, seasons: 20, trials: 0 }]);
  const result = weeks.conclude(await gather(weeks.workload))!;
  expect(result.weeks).toEqual((await runOf(plan, 20)).weeks);
  expect([result.limits, result.running?.without_absence]).toEqual([null, null]);
});
