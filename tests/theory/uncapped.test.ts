/**
 * Stages with holes to spare: every plant keeps its own time, so occupancy is a sum of independent coins.
 *
 * With b seeds every T days and P(S > x) the chance of still standing at age x, the plants that stand at phase phi
 * after a sowing are a sum over earlier sowings k of binomials (b, P(S > phi + kT)):
 * mean b sum P, variance b sum P (1 - P), and over time the mean is b E[S] / T. Elementary from independence; the
 * values were computed independently from these sums. At phase 0+ the new seeds are in, and who is ready has left.
 */

import { describe, expect, test } from 'vitest';
import { BLOCKED, GROWING, STATE_COUNT, UNSOWN } from '../../sim/models/ledger.js';
import { type EventObserver, Line, type PlantEvent } from '../../sim/models/line/line.js';
import type { GrowthTime, Plan } from '../../sim/models/plan.js';
import { crop, every, exponential, grow, line, stage, time } from '../support/plans.js';
import {
  expectMean,
  poissonTimes,
  replicate,
  replicateAll,
  runSeason,
  Steady,
} from '../support/replications.js';

/** Counts the plants in each stage, just after whatever happens at each of some times. */
class Probe implements EventObserver {
  readonly #times: readonly number[];
  readonly #ignored: ReadonlySet<number>;
  readonly #holds: number[];
  #next = 0;
  /** One row a time, one figure a stage. */
  readonly rows: number[][] = [];

  constructor(times: readonly number[], stages: number, ignored: ReadonlySet<number> = new Set()) {
    this.#times = times;
    this.#holds = new Array<number>(stages).fill(0);
    this.#ignored = ignored;
  }

  onEvent(t: number, deed: PlantEvent, plant: number, _crop: number, stage: number): void {
    while (this.#next < this.#times.length && this.#times[this.#next]! < t) this.#look();
    if (this.#ignored.has(plant)) return;
    if (deed === 'sow' || deed === 'move') this.#holds[stage]!++;
    if (deed === 'move') this.#holds[stage - 1]!--;
    if (deed === 'pick' || deed === 'clear') this.#holds[stage]!--;
  }

  #look(): void {
    this.#next++;
    this.rows.push([...this.#holds]);
  }
}

/** Longer than a plant stands that is not exponential: 84 d are 19 standard deviations over the mean of 38 d. */
const WARMUP_WEEKS = 12;
/** 420 d: longer than all exponential plants stand, but for one in 40 million. */
const EXPONENTIAL_WARMUP_WEEKS = 60;

const warmupOf = (plan: Plan): number =>
  plan.crops[0]!.stages[0]!.time.shape === 'exponential' ? EXPONENTIAL_WARMUP_WEEKS : WARMUP_WEEKS;

function cadenceLine(stages: readonly GrowthTime[], seeds: number, cadence: number, germination = 1): Plan {
  const weeks = EXPONENTIAL_WARMUP_WEEKS + 180;
  return line(
    stages.map((_, s) => stage(`stage ${s + 1}`, 1500)),
    [
      crop(
        stages.map((growth) => grow(growth)),
        every(cadence, 7 * weeks, seeds),
        { germination },
      ),
    ],
    { weeks },
  );
}

/** Times at `phase` after each sowing but the last, once the warm-up is over. */
function phases(plan: Plan, cadence: number, phase: number): number[] {
  const times: number[] = [];
  const first = cadence * Math.ceil((7 * warmupOf(plan)) / cadence);
  for (let t = first; t + cadence < 7 * plan.weeks - cadence; t += cadence) times.push(t + phase);
  return times;
}

/**
 * Mean of the occupancy, and mean of its squared distance from what the formula says the mean is.
 * @param living leave out the seeds that will fail
 */
function occupancy(plan: Plan, cadence: number, phase: number, mean: number, living = false) {
  const times = phases(plan, cadence, phase);
  const runner = new Line(plan);
  return replicateAll(2, (season) => {
    const failing = new Set<number>();
    if (living) {
      runSeason(runner, season, {
        onEvent(_t, deed, plant) {
          if (deed === 'fail') failing.add(plant);
        },
      });
    }
    const probe = new Probe(times, 1, failing);
    const { counts, ledger } = runSeason(runner, season, probe);
    // Unlimited: nothing was refused or held up.
    expect(counts[UNSOWN]! + ledger[BLOCKED]!).toBe(0);
    expect(probe.rows.length).toBe(times.length);
    let sum = 0;
    let squares = 0;
    for (const [plants] of probe.rows) {
      sum += plants!;
      squares += (plants! - mean) ** 2;
    }
    return [sum / times.length, squares / times.length];
  });
}

const laws = {
  lognormal: time(24, 0.1, 'lognormal'),
  gamma: time(24, 0.1, 'gamma'),
  weibull: time(24, 0.1, 'weibull'),
  exponential: exponential(24),
};

describe('40 seeds every 7 days, 24 days each: mean and variance of the plants that stand', () => {
  test.each([
    { law: 'lognormal', phase: 0, mean: 158.26619368, variance: 5.65292232 },
    { law: 'lognormal', phase: 3.5, mean: 136.02352333, variance: 9.73630545 },
    { law: 'gamma', phase: 0, mean: 158.06336408, variance: 5.66478524 },
    { law: 'gamma', phase: 3.5, mean: 136.22275591, variance: 9.77900438 },
    { law: 'weibull', phase: 0, mean: 156.3133135, variance: 4.78982783 },
    { law: 'weibull', phase: 1.75, mean: 149.12410667, variance: 8.01249751 },
    { law: 'weibull', phase: 3.5, mean: 138.00912798, variance: 10.45245588 },
    { law: 'exponential', phase: 0, mean: 158.11370371, variance: 67.60876963 },
    { law: 'exponential', phase: 3.5, mean: 136.65794947, variance: 69.04917984 },
  ] as const)('$law, $phase d after a sowing', ({ law, phase, mean, variance }) => {
    const [plants, spread] = occupancy(cadenceLine([laws[law]], 40, 7), 7, phase, mean);
    expectMean(plants!, mean, 0.004);
    expectMean(spread!, variance, 0.06);
  });

  test.each(Object.entries(laws))('%s: over time 960/7 plants on average', (_law, growth) => {
    const plan = cadenceLine([growth], 40, 7);
    const steady = new Steady(plan, warmupOf(plan));
    const sample = replicate((season) => {
      const window = steady.run(season);
      return window.ledger[GROWING]! / window.days;
    });
    expectMean(sample, 960 / 7, 0.004);
  });
});

describe('18 seeds every 3 days, 24 days each', () => {
  test.each([
    { law: 'lognormal', phase: 0, mean: 153.00026133, variance: 8.09597756 },
    { law: 'lognormal', phase: 1.5, mean: 143.99973867, variance: 8.09884959 },
    { law: 'gamma', phase: 0, mean: 153.00003824, variance: 8.11488892 },
    { law: 'gamma', phase: 1.5, mean: 143.99996176, variance: 8.11347303 },
    { law: 'weibull', phase: 0, mean: 152.98519882, variance: 7.94500167 },
    { law: 'weibull', phase: 1.5, mean: 144.01480047, variance: 8.02088664 },
  ] as const)('$law, $phase d after a sowing', ({ law, phase, mean, variance }) => {
    const [plants, spread] = occupancy(cadenceLine([laws[law]], 18, 3), 3, phase, mean);
    expectMean(plants!, mean, 0.002);
    expectMean(spread!, variance, 0.06);
  });
});

describe('constant times leave nothing to luck', () => {
  test.each([
    { seeds: 40, cadence: 7, phase: 0, plants: 160 },
    { seeds: 40, cadence: 7, phase: 1.75, plants: 160 },
    { seeds: 40, cadence: 7, phase: 3.5, plants: 120 },
    { seeds: 40, cadence: 7, phase: 5.25, plants: 120 },
    // 24 d are 8 cadences: the plants that are exactly 24 d old leave before the new ones come.
    { seeds: 18, cadence: 3, phase: 0, plants: 144 },
    { seeds: 18, cadence: 3, phase: 1.5, plants: 144 },
  ])(
    '$seeds seeds every $cadence d: always $plants plants $phase d after',
    ({ seeds, cadence, phase, plants }) => {
      const plan = cadenceLine([time(24)], seeds, cadence);
      const probe = new Probe(phases(plan, cadence, phase), 1);
      runSeason(new Line(plan), 0, probe);
      expect(new Set(probe.rows.flat())).toEqual(new Set([plants]));
    },
  );
});

describe('seeds that sprout with probability 0.85', () => {
  test.each([
    { law: 'lognormal', phase: 0, mean: 134.52626463, variance: 24.26317607 },
    { law: 'lognormal', phase: 3.5, mean: 115.61999483, variance: 24.37747991 },
    { law: 'gamma', phase: 0, mean: 134.35385947, variance: 24.24588625 },
    { law: 'weibull', phase: 3.5, mean: 117.30775878, variance: 25.14806319 },
  ] as const)(
    'thin out the plants that will come to something: $law, $phase d after',
    ({ law, phase, mean, variance }) => {
      const [plants, spread] = occupancy(cadenceLine([laws[law]], 40, 7, 0.85), 7, phase, mean, true);
      expectMean(plants!, mean, 0.002);
      expectMean(spread!, variance, 0.06);
    },
  );

  test('take up as many cells as if all sprouted', () => {
    const [cells] = occupancy(cadenceLine([laws.lognormal], 40, 7, 0.85), 7, 0, 158.26619368);
    expectMean(cells!, 158.26619368, 0.002);
  });
});

/*
 * A plant of age a is in stage 1 with P(S1 > a), in stage 2 with P(S1 + S2 > a) - P(S1 > a). Gamma times of one scale
 * (0.25 d; shapes 56 and 96) add up to a gamma time.
 */
describe('two stages in a row, gamma times of 14 and 24 d: means, variances and covariance', () => {
  test.each([
    {
      phase: 0,
      first: [99.30859249, 10.00699449],
      second: [138.09112148, 19.1519742],
      covariance: -10.00699449,
    },
    {
      phase: 3.5,
      first: [80.61682855, 2.32250357],
      second: [136.26918251, 13.03382319],
      covariance: -2.32250357,
    },
    {
      phase: 5.25,
      first: [73.18743738, 5.9975853],
      second: [133.79216166, 15.29194377],
      covariance: -5.9975853,
    },
  ])('$phase d after a sowing of 40', ({ phase, first, second, covariance }) => {
    const growths = [time(14, 1 / Math.sqrt(56), 'gamma'), time(24, 1 / Math.sqrt(96), 'gamma')];
    const plan = cadenceLine(growths, 40, 7);
    const times = phases(plan, 7, phase);
    const runner = new Line(plan);
    const [m1, m2, v1, v2, both] = replicateAll(5, (season) => {
      const probe = new Probe(times, 2);
      const { ledger } = runSeason(runner, season, probe);
      expect(ledger[BLOCKED]! + ledger[STATE_COUNT + BLOCKED]!).toBe(0);
      const mean = (figure: (row: number[]) => number): number =>
        probe.rows.reduce((sum, row) => sum + figure(row), 0) / probe.rows.length;
      return [
        mean((row) => row[0]!),
        mean((row) => row[1]!),
        mean((row) => (row[0]! - first[0]!) ** 2),
        mean((row) => (row[1]! - second[0]!) ** 2),
        mean((row) => (row[0]! - first[0]!) * (row[1]! - second[0]!)),
      ];
    });
    expectMean(m1!, first[0]!, 0.002);
    expectMean(m2!, second[0]!, 0.002);
    expectMean(v1!, first[1]!, 0.06);
    expectMean(v2!, second[1]!, 0.06);
    expectMean(both!, covariance, 0.12);
  });
});

/*
 * Single seeds at random times into an empty line: at t the plants are Poisson with mean lambda times the integral of
 * P(S > u) up to t (Takacs 1962, from memory; the Poisson law as in Wikipedia, "M/M/infinity queue"). The values
 * were computed independently for lambda = 2.5; 200 lines side by side are one line with 200 times the seeds.
 */
describe('a line fills up from empty as the integral of P(S > u) says', () => {
  const SIDE_BY_SIDE = 200;

  test.each([
    { law: 'lognormal', after: [25, 49.927359298, 57.613287819, 59.970612061] },
    { law: 'weibull', after: [24.999972734, 49.755730843, 57.640738761, 59.999924586] },
    { law: 'exponential', after: [20.445562188, 33.92410749, 37.92723353, 42.809712188] },
  ] as const)('$law: plants after 10, 20, 24 and 30 d', ({ law, after }) => {
    const samples = replicateAll(after.length, (season) => {
      const days = poissonTimes(2.5 * SIDE_BY_SIDE, 35, season);
      const sowing = { kind: 'due', days, seeds: 1 } as const;
      const plan = line([stage('holes', 80 * SIDE_BY_SIDE)], [crop([grow(laws[law])], sowing)], { weeks: 5 });
      const probe = new Probe([10, 20, 24, 30], 1);
      runSeason(new Line(plan), season, probe);
      return probe.rows.map(([plants]) => plants! / SIDE_BY_SIDE);
    });
    after.forEach((mean, i) => {
      expectMean(samples[i]!, mean, 0.003);
    });
  });
});
