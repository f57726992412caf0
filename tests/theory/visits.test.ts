/**
 * What visits on fixed days cost.
 *
 * A plant that is ready at S after its sowing and can be picked only on days phi + kT waits phi + T sum P(S > phi + kT)
 * - E[S]: T/2 for short T, not for long ones. Values computed independently from the sum. Visits happen on whole
 * days, so the lines below are four times as slow as the table they are held against, and their waits four times as
 * long.
 */

import { describe, expect, test } from 'vitest';
import { PICKED, SOWN, STATE_COUNT, UNATTENDED, UNSUPPLIED } from '../../sim/models/ledger.js';
import { Line } from '../../sim/models/line/line.js';
import type { GrowthTime, Visits } from '../../sim/models/plan.js';
import { meanWaitForVisit } from '../../sim/models/visits.js';
import { crop, every, exponential, grow, line, stage, time, visitDays } from '../support/plans.js';
import { expectMean, replicate, replicateAll, runSeason, Steady } from '../support/replications.js';

const SLOWER = 4;
const SEEDS = 3000;

/** Day 0 to sow, then every `cadence` days from `phase` on. */
function visitsFrom(phase: number, cadence: number, end: number): Visits {
  const days = new Set([0]);
  for (let day = phase; day < end; day += cadence) days.add(day);
  return { kind: 'days', days: [...days] };
}

function slower(growth: GrowthTime): GrowthTime {
  return { ...growth, days: SLOWER * growth.days };
}

/** Mean wait of a ready plant for a visit, in the table's days. */
function meanWait(growth: GrowthTime, cadence: number, phase: number) {
  const weeks = growth.shape === 'exponential' ? 360 : 40;
  const plan = line(
    [stage('holes', SEEDS)],
    [crop([grow(slower(growth))], { kind: 'due', days: [0], seeds: SEEDS })],
    { weeks, visits: visitsFrom(SLOWER * phase, SLOWER * cadence, 7 * weeks) },
  );
  const runner = new Line(plan);
  return replicate((season) => {
    const { counts, ledger } = runSeason(runner, season);
    expect(counts[PICKED]).toBe(counts[SOWN]);
    return ledger[UNATTENDED]! / SEEDS / SLOWER;
  });
}

const lognormal = time(24, 0.1, 'lognormal');
const gamma = time(24, 0.1, 'gamma');
const weibull = time(24, 0.1, 'weibull');
const wide = time(10, 0.25, 'lognormal');

describe('how long a ready head waits for the next visit', () => {
  test.each([
    { law: 'lognormal', growth: lognormal, cadence: 1, phase: 0, wait: 0.5 },
    { law: 'exponential', growth: exponential(24), cadence: 1, phase: 0, wait: 0.5034721218 },
    { law: 'lognormal', growth: lognormal, cadence: 2, phase: 0.5, wait: 0.9999999982 },
    { law: 'weibull', growth: weibull, cadence: 3, phase: 0, wait: 1.4975331362 },
    { law: 'lognormal', growth: wide, cadence: 3, phase: 0, wait: 1.5006425441 },
    { law: 'lognormal', growth: lognormal, cadence: 3.5, phase: 0, wait: 1.7503502388 },
    { law: 'lognormal', growth: lognormal, cadence: 7, phase: 0, wait: 3.6965838943 },
    { law: 'lognormal', growth: lognormal, cadence: 7, phase: 1.75, wait: 3.6530046655 },
    { law: 'lognormal', growth: lognormal, cadence: 7, phase: 3.5, wait: 3.3041165833 },
    { law: 'gamma', growth: gamma, cadence: 7, phase: 0, wait: 3.6610887146 },
    { law: 'gamma', growth: gamma, cadence: 7, phase: 3.5, wait: 3.3389822851 },
    { law: 'weibull', growth: weibull, cadence: 7, phase: 0, wait: 3.3548298632 },
    { law: 'weibull', growth: weibull, cadence: 7, phase: 1.75, wait: 3.8467186671 },
    { law: 'lognormal', growth: wide, cadence: 7, phase: 0, wait: 3.8356126622 },
    { law: 'exponential', growth: exponential(24), cadence: 7, phase: 0, wait: 3.6698981494 },
    { law: 'lognormal', growth: lognormal, cadence: 14, phase: 0, wait: 4.7746329232 },
    { law: 'lognormal', growth: lognormal, cadence: 14, phase: 3.5, wait: 7.5257139258 },
    { law: 'gamma', growth: gamma, cadence: 14, phase: 7, wait: 9.5780858183 },
    { law: 'weibull', growth: weibull, cadence: 14, phase: 0, wait: 4.2709928434 },
    { law: 'exponential', growth: exponential(24), cadence: 14, phase: 0, wait: 7.6767269298 },
  ])(
    '$law $growth.days d, visits on days $phase + $cadence k: $wait d',
    ({ growth, cadence, phase, wait }) => {
      expectMean(meanWait(growth, cadence, phase), wait, 0.005);
    },
  );

  test('weekly visits pick a lognormal head of 24 d, CV 0.1, on days 21, 28 and 35 in these shares', () => {
    const visits = visitDays(7, [1, 0, 0, 0, 0, 0, 0]);
    const sowing = { kind: 'due', days: [0], seeds: SEEDS } as const;
    const runner = new Line(
      line([stage('holes', SEEDS)], [crop([grow(lognormal)], sowing)], { weeks: 7, visits }),
    );
    const samples = replicateAll(3, (season) => {
      const { weekPicks } = runSeason(runner, season);
      return [3, 4, 5].map((week) => weekPicks[week]! / SEEDS);
    });
    [0.0987395332, 0.845929465, 0.0552674634].forEach((share, i) => {
      expectMean(samples[i]!, share, 0.02);
    });
  });
});

/*
 * A plant that is ready at a random moment falls into a gap with a chance proportional to its length and waits half
 * of it: sum g^2 / (2 sum g), variance sum g^3 / (3 sum g) - mean^2 (residual life; e.g. Takacs 1962, from memory).
 */
describe('plants that are ready at a random moment of the week', () => {
  test.each([
    { pattern: [1, 0, 0, 0, 0, 0, 0], wait: 3.5, variance: 4.0833333333 },
    { pattern: [1, 0, 0, 1, 0, 0, 0], wait: 25 / 14, variance: 1.1445578231 },
    { pattern: [1, 0, 1, 0, 1, 0, 0], wait: 17 / 14, variance: 0.5731292517 },
    { pattern: [1, 1, 1, 1, 1, 0, 0], wait: 13 / 14, variance: 0.6139455782 },
  ])('with visits on $pattern wait $wait d', ({ pattern, wait, variance }) => {
    // 700 times, evenly over one week: as good as any moment of it.
    const times = Array.from({ length: 700 }, (_, i) => 14 + (i + 0.5) / 100);
    const growth: GrowthTime = { shape: 'observed', days: 17.5, spread: 0.115, times };
    const sowing = { kind: 'due', days: [0], seeds: SEEDS } as const;
    const plan = line([stage('holes', SEEDS)], [crop([grow(growth)], sowing)], {
      weeks: 4,
      visits: visitDays(4, pattern),
    });
    const runner = new Line(plan);
    const [waits, squares] = replicateAll(2, (season) => {
      const since = new Map<number, number>();
      let sum = 0;
      let squared = 0;
      runSeason(runner, season, {
        onEvent(t, deed, plant) {
          if (deed === 'ripen') since.set(plant, t);
          if (deed !== 'pick') return;
          sum += t - since.get(plant)!;
          squared += (t - since.get(plant)! - wait) ** 2;
        },
      });
      return [sum / SEEDS, squared / SEEDS];
    });
    expectMean(waits!, wait, 0.005);
    // Midpoints of cells of 0.01 d: the variance within a cell is missing, 0.01^2 / 12 at most.
    expectMean(squares!, variance, 0.01, 0.01 ** 2 / 12);
    expect(meanWaitForVisit(plan)).toBeCloseTo(wait, 12);
  });

  test('a line that is always tended, and one that nobody ever tends', () => {
    const plan = line([stage('holes', 1)], [crop([grow(time(5))], every(1, 28, 1))], { weeks: 4 });
    expect(meanWaitForVisit(plan)).toBe(0);
    expect(meanWaitForVisit({ ...plan, visits: { kind: 'days', days: [] } })).toBe(14);
  });
});

/*
 * A hole that is filled on visits T days apart as soon as it is empty goes through cycles of T ceil(S / T): c holes pick
 * c / (T E ceil(S / T)) a day (renewal theorem). E ceil computed independently.
 */
describe('one stage that is refilled on every visit', () => {
  const exponential24 = exponential(24);
  const rows = [
    { holes: 4, cadence: 7, law: 'lognormal', growth: lognormal, harvest: 0.144422143 },
    { holes: 4, cadence: 7, law: 'gamma', growth: gamma, harvest: 0.144607468 },
    { holes: 4, cadence: 7, law: 'weibull', growth: weibull, harvest: 0.1462264624 },
    { holes: 4, cadence: 7, law: 'exponential', growth: exponential24, harvest: 0.1445614284 },
    { holes: 4, cadence: 3, law: 'lognormal', growth: lognormal, harvest: 0.1568624772 },
    { holes: 12, cadence: 3, law: 'weibull', growth: weibull, harvest: 0.4706337643 },
    { holes: 8, cadence: 7, law: 'lognormal', growth: wide, harvest: 0.5782179796 },
    { holes: 8, cadence: 7, law: 'gamma', growth: time(10, 0.25, 'gamma'), harvest: 0.5823361439 },
    { holes: 8, cadence: 7, law: 'exponential', growth: exponential(10), harvest: 0.5753310814 },
  ] as const;
  const WEEKS = 3600;
  const WARMUP_WEEKS = 600;

  /** The start is not forgotten when spread is small, but it can shift the picks by one a hole at most. */
  const bias = (holes: number): number => holes / (7 * (WEEKS - WARMUP_WEEKS));

  test.each(rows)('$holes holes, $law $growth.days d, visits every $cadence d: $harvest a day', (row) => {
    const { holes, cadence, growth, harvest } = row;
    const visits = visitsFrom(0, cadence, 7 * WEEKS);
    const plan = line([stage('holes', holes)], [crop([grow(growth)], every(cadence, 7 * WEEKS, holes))], {
      weeks: WEEKS,
      visits,
    });
    const steady = new Steady(plan, WARMUP_WEEKS);
    const sample = replicate((season) => {
      const { counts, days } = steady.run(season);
      return counts[PICKED]! / days;
    }, 16);
    expectMean(sample, harvest, 0.005, bias(holes));
  });

  test.each(rows)(
    '$holes holes, $law $growth.days d, seeds every $cadence d, always tended: the same',
    (row) => {
      const { holes, cadence, growth, harvest } = row;
      const plan = line([stage('holes', holes)], [crop([grow(growth)], every(cadence, 7 * WEEKS, holes))], {
        weeks: WEEKS,
      });
      const steady = new Steady(plan, WARMUP_WEEKS);
      const sample = replicate((season) => {
        const { counts, days } = steady.run(season);
        return counts[PICKED]! / days;
      }, 16);
      expectMean(sample, harvest, 0.005, bias(holes));
    },
  );
});

/* Both holes begin a cycle together: X = 1 / (T E max(ceil(S1 / T), ceil(S2 / T))). */
describe('two single holes in a row, moved on visit days only', () => {
  test.each([
    { cadence: 7, shape: 'lognormal', harvest: 0.036056227342 },
    { cadence: 7, shape: 'gamma', harvest: 0.036114165573 },
    { cadence: 3, shape: 'lognormal', harvest: 0.039157276962 },
    { cadence: 3, shape: 'gamma', harvest: 0.039174553102 },
  ] as const)(
    '$shape 14 and 24 d, visits every $cadence d: $harvest a day',
    ({ cadence, shape, harvest }) => {
      const weeks = 10_500;
      const growing = [grow(time(14, 0.25, shape)), grow(time(24, 0.1, shape))];
      const plan = line(
        [stage('first', 1), stage('second', 1)],
        [crop(growing, every(cadence, 7 * weeks, 1))],
        {
          weeks,
          visits: visitsFrom(0, cadence, 7 * weeks),
        },
      );
      const steady = new Steady(plan, 600);
      const sample = replicate((season) => {
        const { counts, ledger, days } = steady.run(season);
        expect(ledger[UNSUPPLIED]).toBe(0);
        expect(ledger[STATE_COUNT + UNSUPPLIED]).toBeGreaterThan(0);
        return counts[PICKED]! / days;
      }, 16);
      expectMean(sample, harvest, 0.001, 1 / (7 * (weeks - 600)));
    },
  );
});
