/**
 * Stages in series whose plants wait in their holes for a free hole downstream: blocking after service.
 *
 * Saturated lines have a stage `outside` in front, sown full on day 0 and never used up: so many holes that seeds
 * never run out, and a time of 2^-20 d.
 */

import { describe, expect, test } from 'vitest';
import {
  BLOCKED,
  FILLING,
  GROWING,
  PICKED,
  STATE_COUNT,
  UNSOWN,
  UNSUPPLIED,
} from '../../sim/models/ledger.js';
import type { GrowthTime } from '../../sim/models/plan.js';
import { crop, every, exponential, grow, line, stage, time } from '../support/plans.js';
import { lasting, resolving } from '../support/repeats.js';
import { expectMean, replicateAll, Steady } from '../support/replications.js';

/**
 * Harvest a day, then mean blocked holes of every stage, in the steady state of a saturated line.
 * @param picks about how many picks a season gives in full (see repeats.ts): the line's length follows from it
 */
function saturated(holes: readonly number[], growths: readonly GrowthTime[], picks: number) {
  const rate = Math.min(...holes.map((c, i) => c / growths[i]!.days));
  const total = growths.reduce((sum, growth) => sum + growth.days, 0);
  // 30 times the time that a plant needs: nothing is left of the empty start.
  const warmup = Math.ceil((30 * total) / 7);
  const weeks = warmup + Math.ceil(lasting(picks) / rate / 7);
  const seeds = Math.ceil(7 * weeks * rate * 1.1) + 50 + holes[0]!;
  const plan = line(
    [stage('outside', seeds), ...holes.map((c, i) => stage(`stage ${i + 1}`, c))],
    [crop([grow(time(2 ** -20)), ...growths.map((g) => grow(g))], { kind: 'due', days: [0], seeds })],
    { weeks },
  );
  const steady = new Steady(plan, warmup);
  return replicateAll(1 + holes.length, (season) => {
    const { counts, ledger, days } = steady.run(season);
    // Saturated: the first stage never stands empty.
    expect(ledger[STATE_COUNT + UNSUPPLIED]! + ledger[STATE_COUNT + FILLING]!).toBe(0);
    return [counts[PICKED]! / days, ...holes.map((_, i) => ledger[(i + 1) * STATE_COUNT + BLOCKED]! / days)];
  });
}

/*
 * Hunt 1956 (Operations Research 4:674) and Hillier & Boling 1967 (Operations Research 15:286) treat these lines;
 * their printed digits are cited from memory. The values were computed independently from the Markov chain, most
 * as exact fractions.
 */
describe('single holes, exponential times, mean 1 d', () => {
  test.each([
    { stages: 2, harvest: 2 / 3, blocked: [1 / 3] },
    { stages: 3, harvest: 22 / 39, blocked: [17 / 39, 3 / 13] },
    { stages: 4, harvest: 4024 / 7817, blocked: [3793 / 7817, 2573 / 7817, 1494 / 7817] },
  ])('$stages stages harvest $harvest a day', ({ stages, harvest, blocked }) => {
    const ones = new Array<number>(stages).fill(1);
    const [picks, ...held] = saturated(ones, ones.map(exponential), 4000);
    expectMean(picks!, harvest, resolving(0.005));
    blocked.forEach((theory, i) => {
      expectMean(held[i]!, theory, resolving(0.01));
    });
  });

  test.each([
    // mu1 mu2 (mu1^2 - mu2^2) / (mu1^3 - mu2^3)
    { rates: [1, 2], harvest: 6 / 7 },
    { rates: [2, 1], harvest: 6 / 7 },
  ])('two stages of rates $rates harvest $harvest a day', ({ rates, harvest }) => {
    const [picks] = saturated(
      [1, 1],
      rates.map((rate) => exponential(1 / rate)),
      4000,
    );
    expectMean(picks!, harvest, resolving(0.005));
  });

  test.each([
    { means: [1.1, 0.8, 1.1], harvest: 0.5670916169 },
    { means: [0.9, 1.2, 0.9], harvest: 0.5532606301 },
  ])('the bowl: mean times $means harvest $harvest a day', ({ means, harvest }) => {
    const [picks] = saturated([1, 1, 1], means.map(exponential), 6000);
    expectMean(picks!, harvest, resolving(0.002));
  });
});

/*
 * Plants past their growth in the first stage are a birth-death chain on 0 .. c1 + c2: birth min(c1, c1 + c2 - n) / m1,
 * death min(n, c2) / m2. Derived and solved independently (closed form and sparse chain).
 */
describe('several holes a stage, exponential times', () => {
  test.each([
    { holes: [2, 1], means: [1, 1], harvest: 10 / 11, blocked: 12 / 11 },
    { holes: [1, 2], means: [1, 1], harvest: 10 / 11, blocked: 1 / 11 },
    { holes: [2, 2], means: [1, 1], harvest: 3 / 2, blocked: 1 / 2 },
    { holes: [3, 2], means: [1, 1], harvest: 366 / 203, blocked: 243 / 203 },
    { holes: [2, 3], means: [1, 1], harvest: 366 / 203, blocked: 40 / 203 },
    { holes: [4, 4], means: [1, 1], harvest: 284 / 87, blocked: 64 / 87 },
    { holes: [4, 8], means: [14, 24], harvest: 0.2585848539, blocked: 0.379812046 },
    { holes: [6, 8], means: [14, 24], harvest: 0.3132367307, blocked: 1.6146857704 },
    { holes: [14, 24], means: [14, 24], harvest: 0.9107842399, blocked: 1.249020642 },
    { holes: [20, 24], means: [14, 24], harvest: 0.9945020724, blocked: 6.0769709859 },
  ])('$holes holes of $means d: $harvest a day, $blocked blocked', ({ holes, means, harvest, blocked }) => {
    const [picks, held] = saturated(holes, means.map(exponential), 5000);
    expectMean(picks!, harvest, resolving(0.005));
    expectMean(held!, blocked, resolving(0.04));
    // Little's law of the growing plants: X = (c1 - blocked) / m1. A property of the theory's own numbers.
    expect((holes[0]! - blocked) / means[0]!).toBeCloseTo(harvest, 8);
  });

  test.each([
    {
      holes: [2, 2, 2],
      means: [1, 1, 1],
      harvest: 231687114 / 174012403,
      blocked: [0.6685597693, 0.3500089588],
    },
    { holes: [1, 2, 3], means: [1, 1, 1], harvest: 0.9069070257, blocked: [0.0930929743, 0.015908344] },
    { holes: [3, 2, 1], means: [1, 1, 1], harvest: 0.9064101, blocked: [2.0935899, 1.0811818525] },
    { holes: [2, 6, 10], means: [3, 14, 24], harvest: 0.3571656668, blocked: [0.9285029997, 0.7429906066] },
  ])('three stages, $holes holes of $means d: $harvest a day', ({ holes, means, harvest, blocked }) => {
    const [picks, ...held] = saturated(holes, means.map(exponential), 5000);
    expectMean(picks!, harvest, resolving(0.005));
    blocked.forEach((theory, i) => {
      expectMean(held[i]!, theory, resolving(0.04));
    });
  });
});

/* Computed independently from the Markov chain of the numbers of plants in each phase of an Erlang time. */
describe('Erlang-k times (gamma, CV 1/sqrt k): less spread, more harvest', () => {
  const erlang = (days: number, k: number): GrowthTime => time(days, 1 / Math.sqrt(k), 'gamma');

  test.each([
    { holes: [2, 2], means: [1, 1], k: 2, harvest: 1.5777135621 },
    { holes: [2, 2], means: [1, 1], k: 4, harvest: 1.6509496177 },
    { holes: [4, 4], means: [1, 1], k: 3, harvest: 3.4295129901 },
    { holes: [3, 4], means: [14, 24], k: 2, harvest: 0.1527419681, blocked: 0.8616124464 },
    { holes: [3, 4], means: [14, 24], k: 4, harvest: 0.1565893359, blocked: 0.8077492974 },
    { holes: [6, 8], means: [14, 24], k: 3, harvest: 0.3216045878, blocked: 1.4975357702 },
    { holes: [1, 1, 1], means: [1, 1, 1], k: 2, harvest: 0.6404085005 },
    { holes: [1, 1, 1], means: [1, 1, 1], k: 4, harvest: 0.7139994137 },
  ])('$holes holes of $means d, k = $k: $harvest a day', ({ holes, means, k, harvest, blocked }) => {
    const [picks, held] = saturated(
      holes,
      means.map((m) => erlang(m, k)),
      4000,
    );
    expectMean(picks!, harvest, resolving(0.003));
    if (blocked !== undefined) expectMean(held!, blocked, resolving(0.02));
  });

  test('stages of different spread: 3 and 4 holes of 14 and 24 d, k = 2 and 8', () => {
    const [picks, held] = saturated([3, 4], [erlang(14, 2), erlang(24, 8)], 4000);
    expectMean(picks!, 0.1557697356, resolving(0.003));
    expectMean(held!, 0.8192237012, resolving(0.02));
  });
});

/*
 * Two single holes whatever the law: both begin together, so a cycle lasts max(S1, S2) and the harvest is
 * 1 / E max(S1, S2) (renewal argument). E max computed independently by integration.
 */
describe('two single holes of any law harvest 1 / E max(S1, S2)', () => {
  test.each([
    {
      first: [24, 0.1],
      second: [24, 0.1],
      lognormal: 25.3495689292,
      gamma: 25.3523634962,
      weibull: 25.330491128,
    },
    {
      first: [14, 0.25],
      second: [24, 0.1],
      lognormal: 24.0379871037,
      gamma: 24.0267651718,
      weibull: 24.0152990541,
    },
    {
      first: [10, 0.25],
      second: [10, 0.25],
      lognormal: 11.3821651429,
      gamma: 11.3994993409,
      weibull: 11.4152799008,
    },
    {
      first: [10, 0.25],
      second: [12, 0.25],
      lognormal: 12.7214132397,
      gamma: 12.7389024441,
      weibull: 12.7669724559,
    },
  ])('means and spreads $first and $second', ({ first, second, ...means }) => {
    for (const shape of ['lognormal', 'gamma', 'weibull'] as const) {
      const growths = [time(first[0]!, first[1]!, shape), time(second[0]!, second[1]!, shape)];
      const [picks, blocked] = saturated([1, 1], growths, 3000);
      const max = means[shape];
      expectMean(picks!, 1 / max, resolving(0.001));
      expectMean(blocked!, (max - first[0]!) / max, resolving(0.02));
    }
  });
});

/*
 * A batch of b seeds every T days into an empty or half-full line; seeds that find no cell are lost. Exponential
 * times: the chain from sowing to sowing has pi = pi e^(QT) J. Computed independently by matrix exponentials.
 */
describe('batches on a fixed cadence, what does not fit is lost; exponential times', () => {
  test.each([
    {
      holes: [1, 1],
      means: [1, 1],
      seeds: 1,
      cadence: 1,
      harvest: 0.5431814138,
      lost: 0.4568185862,
      blocked: [0.1653504034],
      occupied: [0.7085318172, 0.5431814138],
    },
    {
      holes: [5, 5],
      means: [1, 1],
      seeds: 3,
      cadence: 1,
      harvest: 2.7555563424,
      lost: 0.2444436576,
      blocked: [0.0683141681],
      occupied: [2.8238705105, 2.7555563424],
    },
    {
      holes: [4, 8],
      means: [14, 24],
      seeds: 2,
      cadence: 7,
      harvest: 1.4574856153,
      lost: 0.5425143847,
      blocked: [0.0714071953],
      occupied: [2.986378426, 4.9970935383],
    },
    {
      holes: [6, 8],
      means: [14, 24],
      seeds: 3,
      cadence: 7,
      harvest: 2.0094332549,
      lost: 0.9905667451,
      blocked: [0.7891925488],
      occupied: [4.8080590586, 6.8894854453],
    },
    {
      holes: [6, 8],
      means: [14, 24],
      seeds: 2,
      cadence: 5,
      harvest: 1.4515546075,
      lost: 0.5484453925,
      blocked: [0.8650008499],
      occupied: [4.9293537509, 6.967462116],
    },
    {
      holes: [4, 6, 8],
      means: [3, 14, 24],
      seeds: 3,
      cadence: 7,
      harvest: 2.1731337602,
      lost: 0.8268662398,
      blocked: [1.7105386338, 1.5092208774],
      occupied: [2.6418816739, 5.8554883977, 7.4507443206],
    },
  ])('$holes holes of $means d, $seeds seeds every $cadence d', (row) => {
    const total = row.means.reduce((sum, mean) => sum + mean, 0);
    // Whole cadences, and 30 times what a plant needs.
    const warmup = row.cadence * Math.ceil((30 * total) / 7);
    const weeks = warmup + row.cadence * Math.ceil(lasting(3000) / 7);
    const plan = line(
      row.holes.map((c, i) => stage(`stage ${i + 1}`, c)),
      [
        crop(
          row.means.map((mean) => grow(exponential(mean))),
          every(row.cadence, 7 * weeks, row.seeds),
        ),
      ],
      { weeks },
    );
    const steady = new Steady(plan, warmup);
    const stages = row.holes.length;
    const samples = replicateAll(2 + 2 * stages, (season) => {
      const { counts, ledger, days } = steady.run(season);
      const batches = days / row.cadence;
      const mean = (s: number, state: number): number => ledger[s * STATE_COUNT + state]! / days;
      const each = Array.from({ length: stages }, (_, s) => s);
      return [
        counts[PICKED]! / batches,
        counts[UNSOWN]! / batches,
        ...each.map((s) => mean(s, GROWING) + mean(s, BLOCKED)),
        ...each.map((s) => mean(s, BLOCKED)),
      ];
    });
    expectMean(samples[0]!, row.harvest, resolving(0.005));
    expectMean(samples[1]!, row.lost, resolving(0.02));
    row.occupied.forEach((theory, s) => {
      expectMean(samples[2 + s]!, theory, resolving(0.01));
    });
    row.blocked.forEach((theory, s) => {
      expectMean(samples[2 + stages + s]!, theory, resolving(0.04));
    });
  });
});
