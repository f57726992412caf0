/** Of very many plants one in so many is followed: against the whole season, of which the answer is known. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { replaySections } from '../../../cli/sections/replay.js';
import { sumOf } from '../../../sim/engine/lists.js';
import { Moments } from '../../../sim/engine/tally.js';
import type { Plan, Sowing } from '../../../sim/models/plan.js';
import { type Cohort, type CohortsByStage, cohortsOf } from '../../../sim/season/history/cohorts.js';
import { seasonBehind } from '../../../sim/season/history/season-behind.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { costs } from '../../../sim/season/replay/costs.js';
import { failedBatches } from '../../../sim/season/replay/failed-batches.js';
import { followed, plantsForEach } from '../../../sim/season/replay/followed.js';
import { MeanFlow } from '../../../sim/season/replay/mean-flow.js';
import { replaySeason } from '../../../sim/season/replay/replay.js';
import { seasonDraws } from '../../../sim/season/replay/season-draws.js';
import { simulated } from '../../../sim/season/replay/simulated.js';
import { arbitraryPlan } from '../../support/arbitrary-plan.js';
import { planted, ROOMY } from '../../support/planted.js';
import { luckOf, seasonOf } from '../../support/replayed.js';
import { simulatedLog } from '../../support/simulated-log.js';

const SEED = 20270104;

/** A line with so many times as many holes, seeds and wanted heads. */
function times(plan: Plan, k: number): Plan {
  const sowingOf = (sowing: Sowing): Sowing =>
    sowing.kind === 'refill'
      ? sowing
      : {
          ...sowing,
          seeds: sowing.seeds * k,
          ...(sowing.more && { more: sowing.more.map((seeds) => seeds * k) }),
        };
  return {
    ...plan,
    stages: plan.stages.map((stage) => ({ ...stage, holesPerChannel: stage.holesPerChannel * k })),
    crops: plan.crops.map((crop) => ({ ...crop, sowing: sowingOf(crop.sowing) })),
    want: plan.want && { ...plan.want, heads: plan.want.heads * k },
  };
}

function onEveryLine(law: (plan: Plan, seed: number, k: number) => void, numRuns: number): void {
  const lines = arbitraryPlan({}).filter(({ visits }) => visits.kind === 'days');
  fc.assert(fc.property(lines, fc.nat(1e6), fc.integer({ min: 2, max: 7 }), law), { seed: SEED, numRuns });
}

const timesRows = (rows: readonly LogRow[], k: number): LogRow[] =>
  rows.map((row) => ({ ...row, count: row.count * k }));

test('where every row is of k times as many, those that are followed are the lots of the log itself', () =>
  onEveryLine((plan, seed, k) => {
    const rows = simulatedLog(plan, seed, 0);
    const large = times(plan, k);
    const lots = cohortsOf(seasonOf(large, timesRows(rows, k)));
    const bare = (all: CohortsByStage) =>
      all.map((list) =>
        list.map(({ batch, crop, phase, from, count, stays }) => ({
          batch,
          crop,
          phase,
          from,
          count,
          stays,
        })),
      );
    expect(bare(followed(lots, large, k, seed))).toEqual(bare(cohortsOf(seasonOf(plan, rows))));
  }, 200));

test('a line k times as large gives k times as much if one in k is followed', () =>
  onEveryLine((plan, seed, k) => {
    const { weekPicks, sown } = simulated(plan, luckOf(plan, seed, 0), 1);
    const large = simulated(times(plan, k), luckOf(plan, seed, 0), k);
    expect(large.weekPicks).toEqual(weekPicks.map((heads) => heads * k));
    expect(large.sown).toBe(sown * k);
  }, 100));

test('whoever is followed and grows again after a pick is followed on', () => {
  let grew = 0;
  onEveryLine((plan, seed, k) => {
    // No number of plants is a multiple of those that one stands for.
    const behind = seasonBehind(seasonOf(times(plan, 11), timesRows(simulatedLog(plan, seed, 0), 11)));
    const lots = followed(behind.cohorts, plan, k, seed);
    const picks = new Map<string, number>();
    const add = (key: string, count: number) => picks.set(key, (picks.get(key) ?? 0) + count);
    for (const { crop, phase, stays } of lots.flat())
      for (const { to, count, end, vacates } of stays)
        if (end === 'picked' && !vacates) add(`${crop} ${phase + 1} ${to}`, count);
    for (const { crop, phase, from, count } of lots.at(-1)!) {
      add(`${crop} ${phase} ${from}`, -count);
      grew += count;
    }
    expect(new Set(picks.values())).toEqual(new Set(picks.size === 0 ? [] : [0]));
    expect(() => seasonDraws(behind.season, lots, behind.readiness)).not.toThrow();
  }, 150);
  expect(grew).toBeGreaterThan(100);
});

test('each plant is as likely to be followed as any other, also in a log that recurs', () => {
  const lots = Array.from({ length: 3000 }, (_, day): Cohort => {
    const stay = { told: true, vacates: true };
    const stays = [
      { ...stay, to: day + 5, count: 29, end: 'on' as const },
      { ...stay, to: day + 9, count: 1, end: 'died' as const },
    ];
    return { batch: day, crop: 0, phase: 0, from: day, seen: day, since: null, count: 30, stays };
  });
  const some = followed([lots, [], [], []], ROOMY, 30, 1)[0]!;
  const count = (end: string): number =>
    sumOf(some.flatMap(({ stays }) => stays.filter((stay) => stay.end === end).map(({ count }) => count)));
  expect(sumOf(some.map(({ count }) => count))).toBe(3000);
  // One in 30 of 3000 died: five standard errors of a binomial.
  expect(Math.abs(count('died') - 100)).toBeLessThan(5 * Math.sqrt(3000 * (1 / 30) * (29 / 30)));
  expect(count('on') + count('died')).toBe(3000);
});

test('as few plants are left out as will do', () => {
  const lots = cohortsOf(seasonOf(ROOMY, simulatedLog(ROOMY, 5, 1)));
  const growths = sumOf(lots.flat().map(({ count }) => count));
  expect(plantsForEach(lots, growths)).toBe(1);
  expect(plantsForEach(lots, growths - 1)).toBe(2);
  expect(plantsForEach(lots)).toBe(1);
});

test('what an absence cost is told as it truly was, with an interval that allows for who was followed', () => {
  const [large, each, seasons] = [times(ROOMY, 10), 5, 4];
  const off = new Moments();
  let margins = 0;
  for (let number = 0; number < seasons; number++) {
    const { rows, plan, truth } = planted('absent', large, number);
    const { season, cohorts, came, days, short, readiness } = seasonBehind(seasonOf(plan, rows));
    const failed = failedBatches(season, cohorts);
    const meanFlow = new MeanFlow(season);
    const evidence = { season, attendance: came, stages: days, meanFlow, failed, cohorts, waiting: [] };
    const weeks = Array.from({ length: plan.weeks }, () => ({ heads: 0 }));
    for (const { action, day, count } of season.events)
      if (action === 'pick') weeks[Math.floor(day / 7)]!.heads += count;
    const { causes, as_it_was } = costs(evidence, readiness, short, weeks, each);
    expect(as_it_was!.faithful).toBe(true);
    expect(causes[0]!.kind).toBe('absent');
    const { mean, low, high } = causes[0]!.heads;
    off.add(mean - truth);
    margins += ((high - low) / 2) ** 2;
    // Of the plants that were held up about one in five is followed: so many of them that the cost is known to a tenth.
    expect(high - low).toBeLessThan(truth / 2);
  }
  // An interval goes two standard errors to either side: three of their mean.
  expect(Math.abs(off.mean)).toBeLessThan((1.5 * Math.sqrt(margins)) / seasons);
});

test('it is said that but some were followed, and of how many each tells', () => {
  const rows = simulatedLog(ROOMY, 5, 1);
  const names = ROOMY.stages.map(({ name }) => name);
  const replayed = replaySeason(rows, names, ROOMY);
  if (!replayed.ok) throw new Error(JSON.stringify(replayed.faults));
  const said = (each?: number): string =>
    JSON.stringify(replaySections({ ...replayed.value, ...(each && { plants_for_each: each }) }));
  expect('plants_for_each' in replayed.value).toBe(false);
  expect(said()).not.toContain('is followed');
  expect(said(12)).toContain('one in 12 is followed');
});
