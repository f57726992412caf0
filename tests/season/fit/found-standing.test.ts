/** Plants that were found standing when a log began: only survivors are seen, and the fit allows for it. */

import { describe, expect, test } from 'vitest';
import { contradictionsOf } from '../../../sim/season/fit/contradictions.js';
import { fitSeason } from '../../../sim/season/fit/fit.js';
import { observe } from '../../../sim/season/fit/observations.js';
import { fittedLaw } from '../../../sim/season/fit/survival/laws.js';
import type { Group, Stood, Visit } from '../../../sim/season/fit/survival/record.js';
import { StageLikelihood } from '../../../sim/season/fit/survival/stage-likelihood.js';
import { cutLog, type Memory } from '../../support/cut-log.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { rowsOf } from '../../support/replayed.js';
import { simulatedLog } from '../../support/simulated-log.js';

const STAGES = ['tray', 'nursery', 'finishing'];
const PLAN = line(
  [stage('tray', 60), stage('nursery', 80), stage('finishing', 120)],
  [
    crop(
      [grow(time(10, 0.2)), grow(time(14, 0.15), { loss: 0.08 }), grow(time(21, 0.15), { loss: 0.05 })],
      every(3.5, 140, 10),
      { germination: 0.85 },
    ),
  ],
  { weeks: 30, visits: visitDays(30, [1, 0, 0, 1, 0, 0, 0]) },
);

describe('the likelihood', () => {
  const visits: Visit[] = [10, 14, 18, 22].map((day) => ({ day, short: false }));
  const record = (stood: Stood) => {
    const group: Group = {
      kind: 0,
      entries: [{ day: (stood.from + stood.to) / 2, count: 6, stood }],
      ready: [
        { visit: 1, count: 2 },
        { visit: 3, count: 3 },
      ],
      dead: [],
      standing: 1,
    };
    return { visits, groups: [group] };
  };
  const value = (stood: Stood, mean: number, cv: number): number =>
    new StageLikelihood(record(stood), 1, 1 / 4).value(
      [{ law: fittedLaw('weibull', mean, cv), loss: 0, germination: 1, cleared: 1 } as never],
      0,
    );

  test('of a law that forgets its age does not depend on when the plants came in', () => {
    const [day, span] = [
      value({ from: 2, to: 2, seen: 10 }, 9, 1),
      value({ from: -20, to: 9, seen: 10 }, 9, 1),
    ];
    // After day 10 each plant leaves within four days with the chance 1 - e^(-4/9), whatever it did before.
    const stays = (days: number): number => Math.exp(-days / 9);
    const truth = 2 * Math.log(1 - stays(4)) + 3 * Math.log(stays(8) - stays(12)) + Math.log(stays(12));
    expect(day).toBeCloseTo(truth, 8);
    expect(span).toBeCloseTo(truth, 8);
  });

  test('of any law is the chance of what was seen over that of standing there, each a mean over the days', () => {
    const law = fittedLaw('weibull', 14, 0.3);
    const days = [3, 4, 5];
    const mean = (chance: (age: number) => number): number =>
      days.reduce((sum, entry) => sum + chance(-entry), 0) / days.length;
    const there = mean((age) => law.beyond(10 + age));
    const truth =
      2 * Math.log(mean((age) => law.share(14 + age) - law.share(10 + age)) / there) +
      3 * Math.log(mean((age) => law.share(22 + age) - law.share(18 + age)) / there) +
      Math.log(mean((age) => law.beyond(22 + age)) / there);
    expect(value({ from: 3, to: 5, seen: 10 }, 14, 0.3)).toBeCloseTo(truth, 8);
  });
});

describe('the observation', () => {
  const rows = rowsOf(PLAN, [
    '70 stand B1 9 nursery since 2027-03-01..2027-03-02',
    '70 stand B2 7 nursery since 2027-02-01..2027-03-01',
    '70 stand B3 5 nursery',
    '70 move B1 2 finishing',
    '73 move B1 3 finishing',
    '77 move B2 7 finishing',
  ]);
  const { record, undated } = observe(rows, STAGES, PLAN).stages[1]!;

  test('holds plants that still stood after the first visit that left nothing ready behind, with their span', () => {
    // Days from the first row on, Monday 15 March; visits on Mondays and Thursdays.
    expect(record.groups).toEqual([
      {
        kind: 0,
        entries: [{ day: -13, count: 7, stood: { from: -14, to: -13, seen: 0 } }],
        ready: [{ visit: 1, count: 3 }],
        dead: [],
        standing: 4,
      },
    ]);
  });

  test('leaves out those of which it is not known closely since when they stand, and says how many', () => {
    expect(undated).toEqual([12]);
  });
});

/**
 * Of what is called good 95 % is to hold the truth, but for 3 standard errors (of figures taken as independent).
 */
test.each<Memory>(['day', 'vague', 'none'])(
  'intervals hold the truth where it is known since when plants stood: %s',
  (memory) => {
    const truth = {
      tray: { days: 10, spread: 0.2, germination: 0.85 },
      nursery: { days: 14, spread: 0.15, loss: 0.08 },
      finishing: { days: 21, spread: 0.15, loss: 0.05 },
    };
    let good = 0;
    let held = 0;
    for (let season = 0; season < 12; season++) {
      const rows = cutLog(simulatedLog(PLAN, 6, season, { until: 98 }), PLAN, 63, memory);
      for (const fit of fitSeason(rows, STAGES, PLAN).crops[0]!.stages) {
        for (const [key, value] of Object.entries(truth[fit.stage as keyof typeof truth])) {
          const figure = fit[key as 'days' | 'spread' | 'loss' | 'germination'];
          if (!figure?.good) continue;
          good++;
          if (figure.low <= value && value <= figure.high) held++;
        }
      }
    }
    expect(good).toBeGreaterThan(80);
    expect(held / good).toBeGreaterThan(0.95 - 3 * Math.sqrt((0.95 * 0.05) / good));
  },
);

describe('nothing is good that cannot be', () => {
  const visits = [0, 7, 14, 21, 28].map((day) => ({ day, short: false }));
  const group = (ready: number, standing: number): Group => ({
    kind: 0,
    entries: [{ day: 0, count: ready + standing }],
    ready: [{ visit: 1, count: ready }],
    dead: [],
    standing,
  });
  const told = { spread: { value: 0.1 }, shape: 'lognormal' as const, ready: 20 };
  const stay = { value: 7, low: 7, high: 7 };

  test('half are grown before half have left', () => {
    const grown = (days: number) => ({ ...told, days: { value: days }, stay });
    expect(contradictionsOf(grown(27), [group(20, 0)], { visits, groups: [] })).toEqual([
      'grown_exceeds_stood',
    ]);
    expect(contradictionsOf(grown(6), [group(20, 0)], { visits, groups: [] })).toEqual([]);
  });

  test('no more stand longer than those that left than have left', () => {
    const fit = { ...told, days: { value: 6 }, stay };
    expect(contradictionsOf(fit, [group(20, 21)], { visits, groups: [] })).toEqual(['overdue']);
    expect(contradictionsOf(fit, [group(20, 20)], { visits, groups: [] })).toEqual([]);
  });

  test('a log that does not fit the scenario: figures are told, none is good', () => {
    const small = { ...PLAN, stages: [stage('tray', 60), stage('nursery', 80), stage('finishing', 9)] };
    const rows = simulatedLog(PLAN, 6, 0, { until: 98 });
    const { stages } = fitSeason(rows, STAGES, small).crops[0]!;
    for (const { contradictions, days, spread, loss, germination } of stages) {
      expect(contradictions).toContain('refused');
      for (const figure of [days, spread, loss, germination]) expect(figure?.good ?? false).toBe(false);
    }
    expect(stages[0]!.days).not.toBeNull();
  });
});
