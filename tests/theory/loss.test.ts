/**
 * Single seeds at random times that are lost when they find no free hole: Erlang's loss formula.
 *
 * B(0) = 1, B(k) = a B(k - 1) / (k + a B(k - 1)), a = lambda E[S] (Erlang 1917, from memory; the recursion as on the
 * page "Erlang B" of M. Marzolla's queueing documentation). It is insensitive: only the mean time matters, not the
 * shape of its distribution. Values computed independently from the recursion. Times of sowing are drawn in the
 * test; the mean time is 1 d unless said otherwise.
 */

import { describe, expect, test } from 'vitest';
import { GROWING, PICKED, SOWN, UNSOWN } from '../../sim/models/ledger.js';
import type { GrowthTime } from '../../sim/models/plan.js';
import { crop, exponential, grow, line, stage, time } from '../support/plans.js';
import { lasting, resolving } from '../support/repeats.js';
import { expectMean, poissonTimes, replicateAll, Steady } from '../support/replications.js';

/**
 * Share of seeds lost, harvest a day and occupied holes in the steady state, from seasons of so many weeks in full (see repeats.ts).
 * Warm-up: from empty the line is in it after the longest time that a plant can need; 20 mean times leave nothing.
 */
function lossLine(holes: number, rate: number, growth: GrowthTime, full: number) {
  const weeks = lasting(full);
  const warmup = Math.ceil((20 * growth.days) / 7);
  return replicateAll(3, (season) => {
    const days = poissonTimes(rate, 7 * (warmup + weeks), season);
    const plan = line([stage('holes', holes)], [crop([grow(growth)], { kind: 'due', days, seeds: 1 })], {
      weeks: warmup + weeks,
    });
    const { counts, ledger, days: length } = new Steady(plan, warmup).run(season);
    expect(counts[SOWN]! + counts[UNSOWN]!).toBe(days.filter((day) => day >= 7 * warmup).length);
    return [
      counts[UNSOWN]! / (counts[UNSOWN]! + counts[SOWN]!),
      counts[PICKED]! / length,
      ledger[GROWING]! / length,
    ];
  });
}

/** A rarer loss (20 holes, load 10: 0.0019) would need longer seasons than a test should take. */
describe('the share of seeds lost is Erlang B of holes and load', () => {
  test.each([
    { holes: 1, load: 1, lost: 1 / 2 },
    { holes: 2, load: 1, lost: 1 / 5 },
    { holes: 3, load: 2, lost: 4 / 19 },
    { holes: 4, load: 2, lost: 2 / 21 },
    { holes: 5, load: 3, lost: 81 / 736 },
    { holes: 10, load: 5, lost: 0.018384570337 },
    { holes: 10, load: 10, lost: 1562500 / 7281587 },
    { holes: 20, load: 20, lost: 0.158891961542 },
    { holes: 24, load: 24, lost: 0.146482533155 },
  ])('$holes holes, load $load', ({ holes, load, lost }) => {
    const [share, harvest, occupied] = lossLine(holes, load, exponential(1), Math.ceil(1400 / load));
    expectMean(share!, lost, resolving(0.04));
    expectMean(harvest!, load * (1 - lost), resolving(0.01));
    expectMean(occupied!, load * (1 - lost), resolving(0.01));
  });
});

describe('only the mean of the time matters, not its shape', () => {
  test.each([
    { law: 'lognormal, CV 0.1', growth: time(1, 0.1, 'lognormal') },
    { law: 'lognormal, CV 1.5', growth: time(1, 1.5, 'lognormal') },
    { law: 'gamma, CV 0.5', growth: time(1, 0.5, 'gamma') },
    { law: 'weibull, CV 0.25', growth: time(1, 0.25, 'weibull') },
    { law: 'triangular, CV 0.3', growth: time(1, 0.3, 'triangular') },
    { law: 'fixed', growth: time(1) },
  ])('5 holes, load 3, $law', ({ growth }) => {
    const [share, , occupied] = lossLine(5, 3, growth, 450);
    expectMean(share!, 81 / 736, resolving(0.02));
    expectMean(occupied!, 3 * (1 - 81 / 736), resolving(0.01));
  });
});

describe('a line of 24-day heads that gets 2.5 seeds a day', () => {
  test.each([
    { holes: 60, lost: 0.096266812009, harvest: 2.259332969977, growth: exponential(24), law: 'exponential' },
    { holes: 60, lost: 0.096266812009, harvest: 2.259332969977, growth: time(24, 0.1), law: 'lognormal' },
    { holes: 72, lost: 0.016128105304, harvest: 2.45967973674, growth: time(24, 0.1), law: 'lognormal' },
    { holes: 72, lost: 0.016128105304, harvest: 2.45967973674, growth: time(24), law: 'fixed' },
  ])('$holes holes, $law: harvests $harvest a day', ({ holes, lost, harvest, growth }) => {
    const [share, picks, occupied] = lossLine(holes, 2.5, growth, 520);
    expectMean(share!, lost, resolving(0.04));
    expectMean(picks!, harvest, resolving(0.005));
    expectMean(occupied!, 24 * harvest, resolving(0.005));
  });
});
