/**
 * Plants that arrive one by one and wait outside for a free hole: the delay formulas.
 *
 * The first stage, `outside`, is no stage but the queue: so many holes that every seed finds one, and a time of
 * 2^-20 d. So its blocked holes are the waiting plants, and with lambda arrivals a day Little's law turns the
 * formula's mean wait Wq into lambda Wq blocked holes on average. Times of arrival are drawn in the test.
 *
 * M/M/c: Erlang's C formula, here as on the page "Erlang C" of M. Marzolla's queueing documentation:
 * C = c B / (c - a (1 - B)), Wq = C / (c mu - lambda). M/G/1: Pollaczek and Khinchine, Wq = lambda E[S^2] /
 * (2 (1 - rho)) (e.g. Takacs 1962, from memory). M/D/c: Crommelin 1932, from memory. Values computed independently
 * from the formulas; the mean service time is 1 d throughout.
 */

import { describe, expect, test } from 'vitest';
import { BLOCKED, STATE_COUNT, UNSOWN } from '../../sim/models/ledger.js';
import { Line } from '../../sim/models/line/line.js';
import type { GrowthTime } from '../../sim/models/plan.js';
import { crop, exponential, grow, line, stage, time } from '../support/plans.js';
import { lasting, resolving } from '../support/repeats.js';
import {
  expectMean,
  poissonTimes,
  replicate,
  replicateAll,
  runSeason,
  Steady,
} from '../support/replications.js';

const OUTSIDE = 3000;

function queue(holes: number, rho: number, service: GrowthTime, weeks: number, season: number) {
  const days = poissonTimes(rho * holes, weeks * 7, season);
  return line(
    [stage('outside', OUTSIDE), stage('holes', holes)],
    [crop([grow(time(2 ** -20)), grow(service)], { kind: 'due', days, seeds: 1 })],
    { weeks },
  );
}

/** More than 4 relaxation times 1 / (c mu (1 - sqrt rho)^2) of every queue below, so nothing is left of the start. */
const WARMUP_WEEKS = 60;

/** In less a long queue hardly changes, and its standard error falls more slowly than with the root of the length. */
const LEAST_WEEKS = 150;

/**
 * Largest relative standard error from what is run of so many weeks: it falls with the root of the length.
 * @param full of all of them; they are as many as a quarter of them needs to come below twice as much
 */
function resolvedIn(weeks: number, full: number): number {
  return full * Math.sqrt(weeks / lasting(weeks, LEAST_WEEKS));
}

/** Mean number of waiting plants, of which Little's law makes the mean wait, from so many weeks in full (see repeats.ts). */
function meanWaits(holes: number, rho: number, service: GrowthTime, full: number) {
  const weeks = lasting(full, LEAST_WEEKS);
  return replicate((season) => {
    const plan = queue(holes, rho, service, WARMUP_WEEKS + weeks, season);
    const window = new Steady(plan, WARMUP_WEEKS).run(season);
    expect(window.counts[UNSOWN]).toBe(0);
    return window.ledger[0 * STATE_COUNT + BLOCKED]! / window.days / (rho * holes);
  });
}

describe('M/M/c: exponential times, c holes, the mean wait is that of Erlang C', () => {
  test.each([
    { c: 1, rho: 0.5, wait: 1, weeks: 1000, resolution: 0.02 },
    { c: 2, rho: 0.5, wait: 1 / 3, weeks: 800, resolution: 0.02 },
    { c: 2, rho: 0.75, wait: 9 / 7, weeks: 1400, resolution: 0.02 },
    { c: 3, rho: 2 / 3, wait: 4 / 9, weeks: 800, resolution: 0.02 },
    { c: 5, rho: 0.8, wait: 128 / 231, weeks: 400, resolution: 0.03 },
    { c: 5, rho: 0.9, wait: 1.524986441466, weeks: 800, resolution: 0.04 },
    { c: 10, rho: 0.8, wait: 0.204590075398, weeks: 150, resolution: 0.05 },
  ])('c = $c, rho = $rho', ({ c, rho, wait, weeks, resolution }) => {
    expectMean(meanWaits(c, rho, exponential(1), weeks), wait, resolvedIn(weeks, resolution));
  });
});

describe('M/G/1: one hole, the mean wait grows with the spread as Pollaczek and Khinchine say', () => {
  test.each([
    { law: 'lognormal, CV 0.25', service: time(1, 0.25, 'lognormal'), rho: 0.5, wait: 0.53125 },
    { law: 'gamma, CV 0.25', service: time(1, 0.25, 'gamma'), rho: 0.5, wait: 0.53125 },
    { law: 'lognormal, CV 0.25', service: time(1, 0.25, 'lognormal'), rho: 0.8, wait: 2.125 },
    { law: 'gamma, CV 0.25', service: time(1, 0.25, 'gamma'), rho: 0.8, wait: 2.125 },
    { law: 'Erlang-2', service: time(1, Math.SQRT1_2, 'gamma'), rho: 0.5, wait: 0.75 },
    { law: 'Erlang-4', service: time(1, 0.5, 'gamma'), rho: 0.8, wait: 2.5 },
    { law: 'fixed (M/D/1)', service: time(1), rho: 0.5, wait: 0.5 },
    { law: 'fixed (M/D/1)', service: time(1), rho: 0.8, wait: 2 },
  ])('$law, rho = $rho', ({ service, rho, wait }) => {
    expectMean(meanWaits(1, rho, service, 1000), wait, resolvedIn(1000, 0.03));
  });
});

describe('M/D/c: several holes with equal times, the mean wait is that of Crommelin', () => {
  test.each([
    { c: 2, rho: 0.8, wait: 0.9032838794, weeks: 400 },
    { c: 4, rho: 0.8, wait: 0.3860949308, weeks: 300 },
    { c: 10, rho: 0.9, wait: 0.3445820504, weeks: 150 },
  ])('c = $c, rho = $rho', ({ c, rho, wait, weeks }) => {
    expectMean(meanWaits(c, rho, time(1), weeks), wait, resolvedIn(weeks, 0.04));
  });
});

test('M/D/1: the share of plants that wait at most t is that of Erlang', () => {
  // P(W <= t) = (1 - rho) sum_{k <= t} (-rho (t - k))^k / k! e^(rho (t - k)), rho = 0.5.
  const shares = [
    [0.5, 0.6420127083],
    [1, 0.8243606354],
    [2, 0.9469605966],
    [5, 0.9987642703],
  ] as const;
  const warmup = 7 * WARMUP_WEEKS;
  const samples = replicateAll(shares.length, (season) => {
    const since: number[] = [];
    const waits: number[] = [];
    runSeason(new Line(queue(1, 0.5, time(1), lasting(500), season)), season, {
      onEvent(t, deed, plant, _crop, stage) {
        if (deed === 'ripen' && stage === 0) since[plant] = t;
        if (deed === 'move' && t >= warmup) waits.push(t - since[plant]!);
      },
    });
    return shares.map(([most]) => waits.filter((wait) => wait <= most).length / waits.length);
  });
  shares.forEach(([, share], i) => {
    expectMean(samples[i]!, share, resolving(0.01));
  });
});
