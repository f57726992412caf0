/** Two programs, one set of rules: the simulator and the straightforward version of the same line agree on average. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { COUNTS, STATES } from '../../sim/models/ledger.js';
import { Line } from '../../sim/models/line/line.js';
import type { GrowthSpell, GrowthTime, Plan } from '../../sim/models/plan.js';
import { runStraightforward } from '../bench/straightforward.js';
import { crop, every, exponential, grow, line, stage, time, visitDays } from '../support/plans.js';

/**
 * A difference of 4.5 standard errors or more has probability 7e-6 if both means are the same and the sample means
 * are normal. The plans below make 610 comparisons; by Bonferroni, all of them together would raise a false alarm
 * for at most one choice of seeds in 230. The seeds are fixed, so the answer does not change from run to run.
 */
const LIMIT = 4.5;

/** What rounding may differ by where a figure is the same in every season [plants or hole-days]. */
const ROUNDING = 1e-9;

const observed: GrowthTime = { shape: 'observed', days: 4, spread: 0.25, times: [3, 3.5, 4, 5.5] };

const BY_DATE: readonly GrowthSpell[] = [
  { from: 14, beyond: 30, times: 1.6 },
  { from: 45, beyond: 60, times: 0.6 },
];

/** Each plan says which rules it strains. Small lines, so that several hundred seasons take a second. */
const plans: { title: string; seasons: number; plan: Plan }[] = [
  {
    title: 'a congested line of three stages, somebody always there',
    seasons: 400,
    plan: line(
      [stage('germination', 20), stage('nursery', 20), stage('finishing', 24)],
      [
        crop([grow(time(4, 0.3)), grow(time(6, 0.4)), grow(time(11, 0.4))], every(1, 84, 4), {
          germination: 0.85,
        }),
      ],
      { weeks: 12 },
    ),
  },
  {
    title: 'a congested line tended on three days a week, with an away gap',
    seasons: 400,
    plan: line(
      [stage('germination', 16), stage('nursery', 20), stage('finishing', 30)],
      [
        crop(
          [grow(time(5, 0.3, 'gamma')), grow(time(7, 0.3, 'weibull')), grow(time(10, 0.2, 'triangular'))],
          every(1.5, 84, 4),
          { germination: 0.9 },
        ),
      ],
      { weeks: 12, visits: away(visitDays(12, [1, 0, 1, 0, 1, 0, 0]), 30, 39) },
    ),
  },
  {
    title: 'short keeps in every stage, two visits a week',
    seasons: 400,
    plan: line(
      [stage('germination', 16), stage('nursery', 14), stage('finishing', 25)],
      [
        crop(
          [
            grow(time(4, 0.4), { keeps: 3 }),
            grow(time(6, 0.5, 'gamma'), { keeps: 2.5, loss: 0.05 }),
            grow(time(9, 0.3), { keeps: 2, loss: 0.1 }),
          ],
          every(2, 84, 6),
          { germination: 0.8 },
        ),
      ],
      { weeks: 12, visits: visitDays(12, [0, 1, 0, 0, 1, 0, 0]) },
    ),
  },
  {
    title: 'short keeps in a congested line, somebody always there',
    seasons: 400,
    plan: line(
      [stage('germination', 16), stage('nursery', 14), stage('finishing', 20)],
      [
        crop(
          [
            grow(time(4, 0.4), { keeps: 1.5 }),
            grow(time(6, 0.5), { keeps: 2, loss: 0.05 }),
            grow(exponential(9), { keeps: 3, loss: 0.1 }),
          ],
          every(1, 70, 4),
        ),
      ],
      { weeks: 10, want: { heads: 5, days: [...Array(10).keys()].map((week) => week * 7 + 4) } },
    ),
  },
  {
    title: 'losses and cleaning in every stage, a visit every other day',
    seasons: 400,
    plan: line(
      [stage('germination', 20, 1.5), stage('nursery', 24, 2), stage('finishing', 30, 3.2)],
      [
        crop(
          [
            grow(time(4, 0.3, 'weibull'), { loss: 0.2 }),
            grow(time(6, 0.3), { loss: 0.3 }),
            grow(time(10, 0.3), { loss: 0.25, keeps: 6 }),
          ],
          every(1, 84, 5),
          { germination: 0.7 },
        ),
      ],
      { weeks: 12, visits: visitDays(12, [1, 0]) },
    ),
  },
  {
    title: 'losses and cleaning, somebody always there',
    seasons: 400,
    plan: line(
      [stage('germination', 16, 1), stage('nursery', 20, 2.5), stage('finishing', 26, 0.75)],
      [
        crop(
          [
            grow(observed, { loss: 0.1 }),
            grow(time(6, 0.3), { loss: 0.2 }),
            grow(time(8, 0.3), { loss: 0.2 }),
          ],
          every(1, 70, 4),
          { germination: 0.75 },
        ),
      ],
      { weeks: 10 },
    ),
  },
  {
    title: 'two crops of different pace and keeps in the same holes',
    seasons: 400,
    plan: line(
      [stage('germination', 18), stage('nursery', 22, 0.5), stage('finishing', 30)],
      [
        crop(
          [grow(time(3, 0.3), { keeps: 2 }), grow(time(5, 0.3)), grow(time(8, 0.3), { keeps: 3 })],
          every(2, 84, 5),
          { name: 'quick', germination: 0.9 },
        ),
        crop(
          [grow(time(7, 0.2)), grow(time(9, 0.4), { keeps: 4, loss: 0.1 }), grow(time(15, 0.2))],
          every(3, 84, 5),
          { name: 'slow', germination: 0.6 },
        ),
      ],
      { weeks: 12, visits: visitDays(12, [1, 1, 0, 1, 0]) },
    ),
  },
  {
    title: 'three cuts with losses while growing back, beside a crop of one cut',
    seasons: 400,
    plan: line(
      [stage('germination', 12, 1), stage('finishing', 30, 2)],
      [
        crop([grow(time(5, 0.3)), grow(time(12, 0.3), { loss: 0.1, keeps: 4 })], every(3, 98, 4), {
          cuts: 3,
          regrow: grow(time(7, 0.4, 'gamma'), { loss: 0.2, keeps: 4 }),
        }),
        crop([grow(time(5, 0.3)), grow(time(9, 0.3), { keeps: 5 })], every(4, 98, 4), { name: 'head' }),
      ],
      { weeks: 14, visits: visitDays(14, [1, 0, 0, 1, 0, 0, 0]) },
    ),
  },
  {
    title: 'heads wanted on two days a week, one of them without a visit in every other week',
    seasons: 400,
    plan: line(
      [stage('germination', 14), stage('nursery', 18), stage('finishing', 24)],
      [
        crop(
          [grow(time(4, 0.3)), grow(time(6, 0.3)), grow(time(9, 0.3), { keeps: 9, loss: 0.05 })],
          every(2, 84, 5),
          { germination: 0.9 },
        ),
      ],
      {
        weeks: 12,
        visits: visitDays(12, [1, 0, 1, 0, 1, 0, 0, 1, 0, 1, 0, 0, 0, 0]),
        want: { heads: 6, days: [...Array(12).keys()].flatMap((week) => [week * 7, week * 7 + 4]) },
      },
    ),
  },
  {
    title: 'heads wanted on days in a row, several cuts, somebody always there',
    seasons: 400,
    plan: line(
      [stage('germination', 12), stage('finishing', 16, 1)],
      [
        crop([grow(time(4, 0.3)), grow(time(8, 0.4), { keeps: 5 })], every(3, 70, 4), {
          cuts: 2,
          regrow: grow(exponential(5), { loss: 0.1, keeps: 5 }),
        }),
      ],
      {
        weeks: 10,
        want: {
          heads: 3,
          days: [...Array(10).keys()].flatMap((week) => [week * 7 + 2, week * 7 + 3, week * 7 + 6]),
        },
      },
    ),
  },
  {
    title: 'a single stage, sown more than it holds, tended once a week',
    seasons: 400,
    plan: line(
      [stage('bed', 40, 4)],
      [
        crop([grow(time(9, 0.4), { loss: 0.1, keeps: 6 })], every(2, 84, 9), { germination: 0.8 }),
        crop([grow(exponential(6), { keeps: 3 })], every(5, 84, 9), { name: 'late' }),
      ],
      { weeks: 12, visits: visitDays(12, [0, 0, 0, 1, 0, 0, 0]) },
    ),
  },
  {
    title: 'growth that goes by date: a slow spell, then a fast one, in some stages',
    seasons: 400,
    plan: line(
      [stage('germination', 16), stage('nursery', 20, 1), stage('finishing', 30)],
      [
        crop(
          [
            grow(time(5, 0.3), { spells: BY_DATE }),
            grow(time(7, 0.3, 'gamma'), { loss: 0.1, keeps: 6 }),
            grow(time(9, 0.2), { spells: BY_DATE, loss: 0.05, keeps: 7 }),
          ],
          every(2, 84, 5),
          { germination: 0.85, cuts: 2, regrow: grow(time(5, 0.3), { spells: BY_DATE, keeps: 7 }) },
        ),
      ],
      { weeks: 12, visits: visitDays(12, [1, 0, 1, 0]) },
    ),
  },
  {
    title: 'fixed times: many things happen at one instant',
    seasons: 400,
    plan: line(
      [stage('germination', 20, 1), stage('nursery', 18), stage('finishing', 24, 2)],
      [
        crop([grow(time(3)), grow(time(6), { loss: 0.1 }), grow(time(9), { keeps: 1 })], every(2, 84, 6), {
          germination: 0.8,
        }),
        crop([grow(time(4), { keeps: 2 }), grow(time(6)), grow(time(8), { keeps: 2 })], every(3, 84, 6), {
          name: 'other',
        }),
      ],
      { weeks: 12, visits: visitDays(12, [1, 1, 1, 0]) },
    ),
  },
];

describe('the simulator and the straightforward version', () => {
  it.each(plans)('agree on $title', ({ plan, seasons }) => {
    const names = figureNames(plan);
    const ours = new Moments(names.length);
    const theirs = new Moments(names.length);
    const simulator = new Line(plan);
    for (let season = 0; season < seasons; season++) {
      ours.add(figuresOfLine(simulator, season));
      theirs.add(figuresOfStraightforward(plan, season));
    }
    const apart = names.flatMap((name, i) => {
      const difference = ours.mean(i) - theirs.mean(i);
      const error = Math.sqrt((ours.variance(i) + theirs.variance(i)) / seasons);
      // The positive form: a figure that is not a number is a difference too.
      const agrees = Math.abs(difference) <= LIMIT * error + ROUNDING;
      return agrees ? [] : [`${name}: ${ours.mean(i)} against ${theirs.mean(i)}, z = ${difference / error}`];
    });
    expect(apart).toEqual([]);
  });

  it('give the same season, figure by figure, where nothing is left to chance', () => {
    fc.assert(
      fc.property(planWithoutChance(), (plan) => {
        const ours = figuresOfLine(new Line(plan), 0);
        const theirs = figuresOfStraightforward(plan, 0);
        const apart = figureNames(plan).flatMap((name, i) => {
          // Not a number on both sides: no first pick.
          const agrees = Math.abs(ours[i]! - theirs[i]!) <= ROUNDING || Object.is(ours[i], theirs[i]);
          return agrees ? [] : [`${name}: ${ours[i]} against ${theirs[i]}`];
        });
        expect(apart).toEqual([]);
      }),
      { seed: 1, numRuns: 1500 },
    );
  });

  it('are compared on plans that bring about every state and every count', () => {
    const seen = new Set<string>();
    for (const { plan } of plans) {
      const { counts, ledger } = runStraightforward(plan, 1, 0);
      for (const name of COUNTS) if (counts[name] > 0) seen.add(name);
      for (const state of STATES) if (ledger.some((row) => row[STATES.indexOf(state)]! > 0)) seen.add(state);
    }
    expect([...seen].sort()).toEqual([...COUNTS, ...STATES].sort());
  });
});

/**
 * Plans whose every time is fixed, in half and quarter days, so that their sums are exact and much of it happens at
 * one instant. All seeds of a crop sprout or none does; nothing is lost, for the moment of a loss is drawn.
 */
function planWithoutChance(): fc.Arbitrary<Plan> {
  const weeks = 5;
  const quarters = (low: number, high: number) =>
    fc.integer({ min: low * 4, max: high * 4 }).map((n) => n / 4);
  const keeps = fc.option(quarters(0.25, 5), { nil: Infinity });
  const growing = fc.record({
    time: quarters(0.5, 9).map((days) => time(days)),
    loss: fc.constant(0),
    keeps,
  });
  const dayLists = fc.subarray([...Array(weeks * 7).keys()]);
  return fc.integer({ min: 1, max: 3 }).chain((stageCount) => {
    const stages = fc.array(
      fc.record({ holes: fc.integer({ min: 1, max: 14 }), cleanDays: fc.constantFrom(0, 0, 1, 1.25, 3) }),
      { minLength: stageCount, maxLength: stageCount },
    );
    const crops = fc.array(
      fc.record({
        stages: fc.array(growing, { minLength: stageCount, maxLength: stageCount }),
        regrow: quarters(0.5, 9),
        cuts: fc.constantFrom(1, 1, 2, 3),
        germination: fc.constantFrom(1, 1, 1, 0),
        interval: fc.constantFrom(1, 2, 2.5, 4),
        seeds: fc.integer({ min: 1, max: 6 }),
        missed: fc.constantFrom('made_up', 'dropped'),
      }),
      { minLength: 1, maxLength: 3 },
    );
    const visits = fc.oneof(
      fc.constant<Plan['visits']>({ kind: 'always' }),
      dayLists.map((days): Plan['visits'] => ({ kind: 'days', days })),
    );
    const want = fc.option(fc.record({ heads: fc.integer({ min: 1, max: 6 }), days: dayLists }), {
      nil: null,
    });
    return fc.record({ stages, crops, visits, want }).map((parts) =>
      line(
        parts.stages.map(({ holes, cleanDays }, s) => stage(`stage ${s + 1}`, holes, cleanDays)),
        parts.crops.map(({ stages: growth, regrow, cuts, germination, interval, seeds, missed }, c) =>
          crop(growth, every(interval, weeks * 7, seeds, missed), {
            name: `crop ${c + 1}`,
            germination,
            cuts,
            regrow: cuts === 1 ? null : grow(time(regrow), { keeps: growth.at(-1)!.keeps }),
          }),
        ),
        { weeks, visits: parts.visits, want: parts.want },
      ),
    );
  });
}

function figuresOfLine(simulator: Line, season: number): number[] {
  const { counts, ledger, weekPicks, firstPick } = simulator.run(1, season);
  return [...counts, ...ledger, ...weekPicks, firstPick];
}

function figuresOfStraightforward(plan: Plan, season: number): number[] {
  const { counts, ledger, weekPicks, firstPick } = runStraightforward(plan, 1, season);
  return [...COUNTS.map((name) => counts[name]), ...ledger.flat(), ...weekPicks, firstPick];
}

function figureNames(plan: Plan): string[] {
  return [
    ...COUNTS,
    ...plan.stages.flatMap((s) => STATES.map((state) => `${state} in ${s.name}`)),
    ...Array.from({ length: plan.weeks }, (_, week) => `picks in week ${week + 1}`),
    'first pick',
  ];
}

/** The same visits without those on days `from` to `to`. */
function away(visits: Plan['visits'], from: number, to: number): Plan['visits'] {
  if (visits.kind === 'always') return visits;
  return { kind: 'days', days: visits.days.filter((day) => day < from || day > to) };
}

/** Means and variances of several figures, by Welford's method. */
class Moments {
  private n = 0;
  private readonly means: number[];
  private readonly squares: number[];

  constructor(figures: number) {
    this.means = new Array<number>(figures).fill(0);
    this.squares = new Array<number>(figures).fill(0);
  }

  add(values: readonly number[]): void {
    this.n++;
    for (const [i, value] of values.entries()) {
      const step = value - this.means[i]!;
      this.means[i]! += step / this.n;
      this.squares[i]! += step * (value - this.means[i]!);
    }
  }

  mean(i: number): number {
    return this.means[i]!;
  }

  variance(i: number): number {
    return this.squares[i]! / (this.n - 1);
  }
}
