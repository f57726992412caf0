/** What is told of a log, and what is not: too little data, unknown holes, shapes. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../../sim/models/plan.js';
import { type FitResult, fitSeason, type StageFit } from '../../../sim/season/fit/fit.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { arbitraryPlan } from '../../support/arbitrary-plan.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { simulatedLog } from '../../support/simulated-log.js';

const STAGES = ['tray', 'nursery', 'finishing'];

const plan = (rest: Partial<Plan> & { weeks?: number } = {}): Plan =>
  line(
    [stage('tray', 200), stage('nursery', 200), stage('finishing', 400)],
    [
      crop(
        [
          grow(time(8, 0.2)),
          grow(time(13, 0.15), { loss: 0.05 }),
          grow(time(20, 0.12, 'gamma'), { loss: 0.04 }),
        ],
        every(3.5, 91, 14),
        { germination: 0.9 },
      ),
    ],
    { weeks: 20, visits: visitDays(20, [1, 0, 1, 0, 1, 0, 0]), ...rest },
  );

const PLAN = plan();
const ROWS = simulatedLog(PLAN, 4, 0, { until: 110 });
const RESULT = fitSeason(ROWS, STAGES, PLAN);

function told(result: FitResult, name: string, of = 0): StageFit {
  return result.crops[of]!.stages.find(({ stage }) => stage === name)!;
}

describe('a whole season', () => {
  test('tells of each stage what came in and what became of it', () => {
    for (const { entered, ready, dead, standing } of RESULT.crops[0]!.stages) {
      expect(entered).toBe(ready + dead + standing);
    }
    const sown = ROWS.filter(({ action }) => action === 'sow').reduce((sum, { count }) => sum + count, 0);
    expect(told(RESULT, 'tray').entered).toBe(sown);
    expect(told(RESULT, 'nursery').entered).toBe(told(RESULT, 'tray').ready);
  });

  test('finds the times, spreads and losses that the plants had', () => {
    const truth = [
      { name: 'tray', days: 8, spread: 0.2, loss: null, germination: 0.9 },
      { name: 'nursery', days: 13, spread: 0.15, loss: 0.05, germination: null },
      { name: 'finishing', days: 20, spread: 0.12, loss: 0.04, germination: null },
    ];
    for (const { name, ...figures } of truth) {
      const fit = told(RESULT, name);
      for (const key of ['days', 'spread', 'loss', 'germination'] as const) {
        const figure = fit[key];
        if (figures[key] === null) {
          expect(figure, `${name} ${key}`).toBeNull();
          continue;
        }
        expect(figure!.good).toBe(true);
        expect(figure!.low).toBeLessThan(figure!.value);
        expect(figure!.value).toBeLessThan(figure!.high);
        // One season, ten figures: half as wide again as the interval, which a figure misses once in 300
        // times.
        const room = (figure!.high - figure!.low) / 4;
        expect(figures[key]!).toBeGreaterThan(figure!.low - room);
        expect(figures[key]!).toBeLessThan(figure!.high + room);
      }
    }
  });

  test('fits the shape of the plan, and orders all by AIC', () => {
    expect(told(RESULT, 'nursery').shape).toBe('lognormal');
    expect(told(RESULT, 'finishing').shape).toBe('gamma');
    for (const { shapes } of RESULT.crops[0]!.stages) {
      expect(shapes.map(({ shape }) => shape).sort()).toEqual(['gamma', 'lognormal', 'weibull']);
      const aics = shapes.map(({ aic }) => aic);
      expect(aics).toEqual([...aics].sort((a, b) => a - b));
    }
  });

  test('shapes of a few hundred plants that differ by less than 2 are not told apart', () => {
    for (const { shapes, told_apart } of RESULT.crops[0]!.stages) {
      expect(told_apart).toBe(shapes[1]!.aic - shapes[0]!.aic >= 2);
    }
    // Lognormal and gamma with a CV of 0.12 hardly differ; that they cannot be told apart here is what the
    // theory says of 200 plants (their likelihoods differ by about n CV^2 / 36 in the mean; from memory).
    expect(told(RESULT, 'finishing').told_apart).toBe(false);
  });

  test('plants stand longer in a stage than they grow: until somebody comes', () => {
    const { stay, days } = told(RESULT, 'nursery');
    expect(stay!.value!).toBeGreaterThan(days!.value);
    expect(stay!.low!).toBeLessThanOrEqual(stay!.value!);
    expect(stay!.high!).toBeGreaterThanOrEqual(stay!.value!);
  });

  test('is plain data', () => {
    expect(JSON.parse(JSON.stringify(RESULT))).toEqual(RESULT);
  });
});

describe('where plants waited for holes', () => {
  const tight = plan({ stages: [stage('tray', 200), stage('nursery', 200), stage('finishing', 60)] });
  const rows = simulatedLog(tight, 4, 0, { until: 110 });
  const known = told(fitSeason(rows, STAGES, tight), 'nursery');
  const unknown = fitSeason(rows, STAGES, null);

  test('the plan tells when, and their waiting is not taken for growing', () => {
    expect(known.short / known.ready).toBeGreaterThan(0.5);
    expect(known.days!.low).toBeLessThan(13);
    expect(known.days!.high).toBeGreaterThan(13);
  });

  test('without a plan it cannot be told, is said, and times come out too long', () => {
    expect(unknown.holes_known).toBe(false);
    expect(told(unknown, 'nursery').short).toBe(0);
    expect(told(unknown, 'nursery').days!.low).toBeGreaterThan(13);
  });
});

test('whatever the line, figures are numbers in their order, and nobody is lost', () => {
  const lines = arbitraryPlan().filter(({ visits }) => visits.kind === 'days');
  const law = (some: Plan, seed: number, until: number): void => {
    const rows = simulatedLog(some, seed, 0, { until });
    const { crops } = fitSeason(
      rows,
      some.stages.map(({ name }) => name),
      some,
    );
    for (const fit of crops.flatMap(({ stages }) => stages)) {
      expect(fit.entered).toBe(fit.ready + fit.dead + fit.standing);
      for (const figure of [fit.days, fit.spread, fit.loss, fit.germination]) {
        if (figure === null) continue;
        expect(figure.low).toBeGreaterThanOrEqual(0);
        // A figure at the end of its interval may lie beyond it by a rounding error.
        expect(figure.value - figure.low).toBeGreaterThanOrEqual(-1e-9);
        expect(figure.high - figure.value).toBeGreaterThanOrEqual(-1e-9);
        expect(Number.isFinite(figure.high)).toBe(true);
      }
      for (const { aic } of fit.shapes) expect(Number.isFinite(aic)).toBe(true);
    }
  };
  fc.assert(fc.property(lines, fc.nat(1e6), fc.integer({ min: 10, max: 200 }), law), {
    seed: 20270104,
    numRuns: 60,
  });
});

test('where nearly all waited, the spread is not good; where many did, it is', () => {
  const wanting = (heads: number): StageFit => {
    const days = [...Array(40).keys()].flatMap((half) =>
      half % 2 === 0 ? [3.5 * half] : [3.5 * half - 0.5],
    );
    const wanted = plan({ want: { heads, days } });
    return told(fitSeason(simulatedLog(wanted, 4, 0, { until: 98 }), STAGES, wanted), 'finishing');
  };
  const [few, many] = [wanting(10), wanting(24)] as const;
  expect(few.short / few.ready).toBeGreaterThan(0.9);
  expect(few.days!.good).toBe(true);
  expect(few.spread!.good).toBe(false);
  expect(many.short / many.ready).toBeGreaterThan(0.2);
  expect(many.short / many.ready).toBeLessThan(0.6);
  expect(many.spread!.good).toBe(true);
});

describe('too little', () => {
  const part = (until: number): FitResult => fitSeason(simulatedLog(PLAN, 4, 0, { until }), STAGES, PLAN);

  test('a log without rows tells nothing', () => {
    expect(fitSeason([], STAGES, PLAN)).toEqual({ from: '', to: '', holes_known: true, crops: [] });
  });

  test('while all still stand there is no time, and their number is told', () => {
    const result = part(3);
    expect(result.crops[0]!.stages).toEqual([
      expect.objectContaining({
        stage: 'tray',
        ready: 0,
        standing: 14,
        days: null,
        spread: null,
        stay: null,
      }),
    ]);
    expect(told(result, 'tray').shapes).toEqual([]);
  });

  test('a stage that nothing has come into yet is left out', () => {
    expect(part(8).crops[0]!.stages.map(({ stage }) => stage)).toEqual(['tray', 'nursery']);
  });

  test('fewer than 10 plants that left give no time', () => {
    const until = [...Array(14).keys()].findLast((day) => {
      const { ready } = told(part(day), 'tray') ?? { ready: 0 };
      return ready > 0 && ready < 10;
    })!;
    const fit = told(part(until), 'tray');
    expect(fit.ready).toBeGreaterThan(0);
    expect(fit.days).toBeNull();
  });

  test('one batch that all left between the same two visits has a time, but no spread that is good', () => {
    const row = (action: LogRow['action'], date: string, batch: string, count: number): LogRow => ({
      line: 0,
      date,
      action,
      crop: 'leaf',
      batch,
      stage: action === 'move' ? 'nursery' : 'tray',
      channel: null,
      count,
      grams: null,
      note: null,
    });
    const rows = [
      row('sow', '2027-01-04', 'B1', 30),
      row('sow', '2027-01-08', 'B2', 2),
      row('lose', '2027-01-11', 'B1', 1),
      row('move', '2027-01-11', 'B1', 29),
    ];
    const fit = told(fitSeason(rows, STAGES, null), 'tray');
    // All were ready between day 4 and day 7; the least spread that is tried is 1 %.
    expect(fit.days!.low).toBeGreaterThan(4);
    expect(fit.days!.high).toBeLessThan(7.2);
    expect(fit.days!.good).toBe(true);
    expect(fit.spread).toMatchObject({ low: 0, good: false });
    // 29 of 30 sprouted; by the likelihood ratio with half a seed added to each side the interval ends at
    // 0.8387 and 0.9943 (root finding with scipy 1.17).
    expect(fit.germination!.value).toBeCloseTo(29 / 30, 3);
    expect(Math.abs(fit.germination!.low - 0.8387)).toBeLessThan(0.005);
    expect(Math.abs(fit.germination!.high - 0.9943)).toBeLessThan(0.001);
  });

  test('where nothing was lost the loss is 0, and its interval says how much it may be', () => {
    const safe = plan({
      crops: [crop([grow(time(8, 0.2)), grow(time(13, 0.15)), grow(time(20, 0.12))], every(3.5, 49, 14))],
    });
    const result = fitSeason(simulatedLog(safe, 4, 0, { until: 60 }), STAGES, safe);
    const { loss, ready } = told(result, 'nursery');
    expect(loss).toMatchObject({ value: 0, low: 0, good: true });
    // Half a plant of n + 1: the interval by the likelihood ratio ends at 3.28 / (n + 1) for n = 50 and 3.34
    // / (n + 1) for n = 150 (root finding with scipy 1.17); plants that still stand count a little too.
    expect(loss!.high * (ready + 1)).toBeGreaterThan(2.9);
    expect(loss!.high * (ready + 1)).toBeLessThan(3.4);
    expect(told(result, 'tray').germination).toMatchObject({ value: 1, high: 1 });
  });
});

test('seedlings that are moved on the day on which they came tell nothing of the first stage, and do no harm', () => {
  const sown = ROWS.find(({ action }) => action === 'sow')!;
  const bought = ROWS.filter(({ action }) => action === 'sow').flatMap((row): LogRow[] => [
    row,
    { ...row, action: 'move', stage: 'nursery' },
  ]);
  for (const some of [PLAN, null]) {
    const fit = told(fitSeason(bought, STAGES, some), 'tray');
    expect(fit.ready).toBe(bought.length * (sown.count / 2));
    expect(fit.days?.good ?? false).toBe(false);
  }
});

describe('crops and shapes of the plan', () => {
  test('a crop that the plan does not know is fitted and marked', () => {
    const renamed = ROWS.map((row) => ({ ...row, crop: 'cress' }));
    const result = fitSeason(renamed, STAGES, PLAN);
    expect(result.crops[0]).toMatchObject({ crop: 'cress', known: false });
    expect(told(result, 'nursery').shape).toBe('lognormal');
    expect(RESULT.crops[0]!.known).toBe(true);
  });

  test('an exponential time is fitted as a Weibull law, and every other shape that is not fitted as lognormal', () => {
    const [tray, nursery, finishing] = PLAN.crops[0]!.stages;
    const shaped = (shape: 'exponential' | 'triangular' | 'fixed'): Plan => ({
      ...PLAN,
      crops: [
        {
          ...PLAN.crops[0]!,
          stages: [
            tray!,
            { ...nursery!, time: { shape, days: 13, spread: shape === 'fixed' ? 0 : 1, times: [] } },
            finishing!,
          ],
        },
      ],
    });
    const rows = simulatedLog(PLAN, 4, 0, { until: 50 });
    expect(told(fitSeason(rows, STAGES, shaped('exponential')), 'nursery').shape).toBe('weibull');
    expect(told(fitSeason(rows, STAGES, shaped('triangular')), 'nursery').shape).toBe('lognormal');
    expect(told(fitSeason(rows, STAGES, shaped('fixed')), 'nursery').shape).toBe('lognormal');
  });

  test('losses in the first stage are told from failed seeds only if the plan has such losses', () => {
    expect(told(RESULT, 'tray').loss).toBeNull();
    const [tray, nursery, finishing] = PLAN.crops[0]!.stages;
    const lossy = {
      ...PLAN,
      crops: [{ ...PLAN.crops[0]!, stages: [{ ...tray!, loss: 0.1 }, nursery!, finishing!] }],
    };
    const noted = simulatedLog(lossy, 4, 0, { until: 110 });
    const silent = noted.map((row) => (row.action === 'lose' ? { ...row, note: null } : row));
    const width = ({ low, high }: { low: number; high: number }): number => high - low;
    // Notes tell more than their absence does.
    const [told1, told2] = [noted, silent].map((rows) => told(fitSeason(rows, STAGES, lossy), 'tray'));
    for (const fit of [told1!, told2!]) {
      expect(fit.loss!.low).toBeLessThan(0.1);
      expect(fit.loss!.high).toBeGreaterThan(0.1);
      expect(fit.germination!.low).toBeLessThan(0.9);
      expect(fit.germination!.high).toBeGreaterThan(0.9);
    }
    expect(width(told1!.loss!)).toBeLessThan(width(told2!.loss!));
    expect(told1!.cause_unknown).toBe(0);
    expect(told2!.cause_unknown).toBe(told2!.dead);
  });

  test('that plants died in the first stage is seen from notes, also where the plan has no loss there', () => {
    const [tray, nursery, finishing] = PLAN.crops[0]!.stages;
    const lossy = {
      ...PLAN,
      crops: [{ ...PLAN.crops[0]!, stages: [{ ...tray!, loss: 0.1 }, nursery!, finishing!] }],
    };
    for (const plan of [PLAN, null]) {
      const fit = told(fitSeason(simulatedLog(lossy, 4, 0, { until: 110 }), STAGES, plan), 'tray');
      for (const [figure, truth] of [
        [fit.days, 8],
        [fit.spread, 0.2],
        [fit.loss, 0.1],
        [fit.germination, 0.9],
      ] as const) {
        expect(figure!.low).toBeLessThan(truth);
        expect(figure!.high).toBeGreaterThan(truth);
      }
    }
  });

  test('of a crop with several cuts nothing is good: which plants were picked is not logged', () => {
    const cut: Plan = {
      ...PLAN,
      crops: [{ ...PLAN.crops[0]!, cuts: 2, regrow: grow(time(9, 0.12), { loss: 0.03 }) }],
    };
    const result = fitSeason(simulatedLog(cut, 4, 0, { until: 110 }), STAGES, cut);
    const [growth, regrowth] = result.crops[0]!.stages.slice(2);
    expect(growth).toMatchObject({ stage: 'finishing', regrowth: false, in_turn: true });
    expect(regrowth).toMatchObject({ stage: 'finishing', regrowth: true, in_turn: true });
    for (const fit of [growth!, regrowth!]) {
      expect(fit.days!.good).toBe(false);
      expect(fit.spread!.good).toBe(false);
      expect(fit.loss!.good).toBe(false);
      expect(fit.shapes).toEqual([]);
    }
    expect(Math.abs(regrowth!.days!.value / 9 - 1)).toBeLessThan(0.05);
    expect(told(result, 'nursery').in_turn).toBe(false);
  });
});
