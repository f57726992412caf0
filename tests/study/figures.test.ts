/** The table of figures: each held against the seasons it comes from, and what every entry must have. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  COUNTS,
  type CountName,
  type HoleState,
  type Season,
  STATE_COUNT,
  STATES,
} from '../../sim/models/ledger.js';
import { Line } from '../../sim/models/line/line.js';
import type { Plan } from '../../sim/models/plan.js';
import { gather } from '../../sim/seasons/gather.js';
import { WorkloadTallies } from '../../sim/seasons/workload-tallies.js';
import { ORDERS } from '../../sim/study/compare.js';
import { differenceOf, figureOf } from '../../sim/study/figures/estimates.js';
import type { Figure, Samples } from '../../sim/study/figures/figure.js';
import { FIGURES, type FigureName, figureNamed } from '../../sim/study/figures/figures.js';
import { weightedHoleDays } from '../../sim/study/figures/per-hole-and-head.js';
import { samplesOf } from '../../sim/study/figures/samples.js';
import { arbitraryPlan } from '../support/arbitrary-plan.js';
import { crop, every, grow, line, stage, time, visitDays } from '../support/plans.js';

/** A season's own numbers, kept. */
interface Raw {
  readonly counts: Readonly<Record<CountName, number>>;
  /** Hole-days by stage. */
  readonly ledger: readonly Readonly<Record<HoleState, number>>[];
  readonly picks: readonly number[];
  readonly firstPick: number;
}

function rawOf(plan: Plan, { counts, ledger, weekPicks, firstPick }: Season): Raw {
  const record = <Name extends string>(names: readonly Name[], values: ArrayLike<number>, from: number) =>
    Object.fromEntries(names.map((name, i) => [name, values[from + i]!])) as Record<Name, number>;
  return {
    counts: record(COUNTS, counts, 0),
    ledger: plan.stages.map((_, s) => record(STATES, ledger, s * STATE_COUNT)),
    picks: [...weekPicks],
    firstPick,
  };
}

function total(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0);
}

/** The least of the values that share p of them do not exceed. */
function least(values: readonly number[], p: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted.find((_, i) => (i + 1) / sorted.length >= p - 1e-12) ?? Number.NaN;
}

/** Interpolated between the two values next to place p x (n - 1). */
function quantile(values: readonly number[], p: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const place = p * (sorted.length - 1);
  const [below, above] = [sorted[Math.floor(place)]!, sorted[Math.ceil(place)]!];
  return below + (place - Math.floor(place)) * (above - below);
}

const all = (seasons: readonly Raw[], count: CountName): number =>
  total(seasons.map(({ counts }) => counts[count]));
const weeks = (seasons: readonly Raw[], from: number): number[] =>
  seasons.flatMap(({ picks }) => picks.slice(from));

/** Each figure from the seasons themselves. A figure that is missing here does not compile. */
const TRUTH: Readonly<
  Record<FigureName, (seasons: readonly Raw[], from: number, plan: Plan, stage: number) => number>
> = {
  heads_a_week: (seasons, from) => total(weeks(seasons, from)) / weeks(seasons, from).length,
  usual_week: (seasons, from) => least(weeks(seasons, from), 0.5),
  bad_week: (seasons, from) => least(weeks(seasons, from), 0.1),
  weeks_without_pick: (seasons, from) =>
    weeks(seasons, from).filter((picks) => picks === 0).length / weeks(seasons, from).length,
  seeds_a_head: (seasons) => all(seasons, 'sown') / all(seasons, 'picked'),
  thrown_away: (seasons) => all(seasons, 'discarded') / seasons.length,
  hole_days_a_head: (seasons) =>
    total(seasons.flatMap(({ ledger }) => ledger.flatMap((states) => Object.values(states)))) /
    all(seasons, 'picked'),
  first_pick_day: (seasons) => {
    const days = seasons.map(({ firstPick }) => (Number.isNaN(firstPick) ? Infinity : Math.floor(firstPick)));
    return Math.round(quantile(days, 0.5));
  },
  idle: (seasons, _from, { stages, weeks: length }, s) => {
    const empty = seasons.map(
      ({ ledger }) => ledger[s]!.filling + ledger[s]!.untended + ledger[s]!.unsupplied,
    );
    const { channels, holesPerChannel } = stages[s]!;
    return total(empty) / (seasons.length * channels * holesPerChannel * length * 7);
  },
};

const WEEKS = 12;
/** A crowded line in which every figure has something to tell. */
const crowded = line(
  [stage('nursery', 20), stage('finishing', 24)],
  [
    crop([grow(time(7, 0.3), { loss: 0.1, keeps: 3 }), grow(time(14, 0.3))], every(2, WEEKS * 7, 5), {
      germination: 0.8,
    }),
  ],
  { weeks: WEEKS, visits: visitDays(WEEKS, [1, 0, 0, 0, 0]) },
);

async function samplesFor(plan: Plan, seasons: number, from: number, sections = 1): Promise<Samples> {
  const gathered = await gather({ seed: 1, sections, jobs: [{ plan, seasons, trials: 0 }] });
  return samplesOf(gathered, 0, plan, from);
}

function seasonsOf(plan: Plan, seasons: number): Raw[] {
  const simulator = new Line(plan);
  return Array.from({ length: seasons }, (_, i) => rawOf(plan, simulator.run(1, i)));
}

/** The places that a figure is of. */
function placesOf({ scope }: Figure, plan: Plan): (number | undefined)[] {
  return scope === 'whole' ? [undefined] : [...plan.stages.keys()];
}

describe('the table', () => {
  test('names each figure once, and says all that a view needs of it', () => {
    expect(new Set(FIGURES.map(({ name }) => name)).size).toBe(FIGURES.length);
    for (const { label, short, column, unit } of FIGURES) {
      for (const words of [label, short, column, unit]) expect(words).not.toBe('');
      expect(short.length).toBeLessThanOrEqual(14);
    }
  });

  test('has labels that tell figures of one kind apart', () => {
    for (const words of ['label', 'short', 'column'] as const) {
      expect(new Set(FIGURES.map((figure) => figure[words])).size).toBe(FIGURES.length);
    }
  });

  test('is what plans can be ordered by, as far as it is of the whole line', () => {
    expect(ORDERS).toEqual(FIGURES.filter(({ scope }) => scope === 'whole').map(({ name }) => name));
    expect(ORDERS).not.toContain('idle');
  });
});

/** Figures that any plan has; of the others see tests/study/takes. */
const OF_ANY = FIGURES.filter(({ isToldOf }) => isToldOf === undefined);

describe('every figure is what its seasons say', () => {
  test.each(OF_ANY.map((figure) => [figure.name as FigureName, figure] as const))(
    '%s, of a crowded line',
    async (name, figure) => {
      const raw = seasonsOf(crowded, 30);
      const samples = await samplesFor(crowded, 30, 5, 30);
      for (const at of placesOf(figure, crowded)) {
        const truth = TRUTH[name](raw, 5, crowded, at ?? 0);
        expect(truth).toBeGreaterThan(0);
        expect(figureOf(samples, figure, at)!.mean).toBeCloseTo(truth, 10);
        // A section of one season is that season.
        const third = TRUTH[name]([raw[3]!], 5, crowded, at ?? 0);
        expect(figure.of(samples.sections[3]!, at)).toBeCloseTo(third, 10);
      }
    },
  );

  test('of any line, in any weeks; where there is none, it is null', async () => {
    await fc.assert(
      fc.asyncProperty(
        arbitraryPlan(),
        fc.integer({ min: 1, max: 5 }),
        fc.integer({ min: 1, max: 12 }),
        async (plan, seasons, from) => {
          const raw = seasonsOf(plan, seasons);
          const samples = await samplesFor(plan, seasons, from);
          for (const figure of OF_ANY) {
            for (const at of placesOf(figure, plan)) {
              const truth = TRUTH[figure.name as FigureName](raw, from, plan, at ?? 0);
              const found = figureOf(samples, figure, at);
              if (Number.isFinite(truth)) expect(found!.mean).toBeCloseTo(truth, 8);
              else expect(found).toBeNull();
            }
          }
        },
      ),
      { numRuns: 100 },
    );
  });

  test('a share of empty holes is of one stage, or of all stages together', async () => {
    const { all: sample } = await samplesFor(crowded, 5, 5);
    const idle = figureNamed('idle');
    const [nursery, finishing] = [idle.of(sample, 0), idle.of(sample, 1)];
    expect(idle.of(sample)).toBeCloseTo((20 * nursery + 24 * finishing) / 44, 12);
  });
});

describe('a sum of hole-days, each times its weight', () => {
  const prices: Readonly<Record<string, Partial<Record<HoleState, number>>>> = {
    nursery: { growing: 0.5, unsupplied: 0.25 },
    finishing: { growing: 2 },
  };
  const cost: Figure = {
    ...figureNamed('thrown_away'),
    name: 'cost',
    of: (sample, at) => weightedHoleDays(sample, (state, { name }) => prices[name]![state] ?? 0, at),
  };

  /** A season of two stages of which only these hole-days matter. */
  function season(growing: number, unsupplied: number, finishing: number): Season {
    const ledger = new Float64Array(2 * STATE_COUNT);
    ledger[STATES.indexOf('growing')] = growing;
    ledger[STATES.indexOf('unsupplied')] = unsupplied;
    ledger[STATE_COUNT + STATES.indexOf('growing')] = finishing;
    return {
      counts: new Float64Array(COUNTS.length),
      ledger,
      weekPicks: new Float64Array(WEEKS),
      weekDiscards: new Float64Array(2 * WEEKS),
      firstPick: NaN,
      takes: null,
    };
  }

  function samplesOfSeasons(...seasons: Season[]): Samples {
    const job = { plan: crowded, seasons: seasons.length, trials: 0 };
    const gathered = new WorkloadTallies({ seed: 1, sections: 2, jobs: [job] });
    seasons.forEach((one, i) => {
      gathered.section(0, i % 2).add(one);
    });
    return samplesOf(gathered, 0, crowded, 0);
  }

  test('has mean and interval of pencil and paper', () => {
    // 0.5 x 100 + 0.25 x 40 + 2 x 20 = 100 and 0.5 x 120 + 0.25 x 8 + 2 x 21 = 104: mean 102, and with two sections of a season each
    // a standard error of sqrt((2^2 + 2^2) / 2) = 2. Student's t at 0.975 with 1 degree of freedom is 12.7062047362.
    const samples = samplesOfSeasons(season(100, 40, 20), season(120, 8, 21));
    const { mean, low, high } = figureOf(samples, cost)!;
    expect(mean).toBe(102);
    expect(high! - 102).toBeCloseTo(12.7062047362 * 2, 8);
    expect(102 - low!).toBeCloseTo(12.7062047362 * 2, 8);
    // Of the second stage alone: 40 and 42.
    expect(figureOf(samples, cost, 1)!.mean).toBe(41);
    expect(figureOf(samples, cost, 1)!.high! - 41).toBeCloseTo(12.7062047362, 8);
  });

  test('differs between two lines by the sum of what each hole-day more costs', () => {
    const [ours, theirs] = [
      samplesOfSeasons(season(100, 40, 20), season(120, 8, 21)),
      samplesOfSeasons(season(90, 40, 20), season(110, 8, 21)),
    ];
    expect(differenceOf(ours, theirs, cost)).toEqual({ mean: 5, low: 5, high: 5 });
  });

  test('is, for any line and any weights, the weighted sum of the means', async () => {
    await fc.assert(
      fc.asyncProperty(
        arbitraryPlan(),
        fc.array(fc.integer({ min: -9, max: 9 }), { minLength: STATE_COUNT, maxLength: STATE_COUNT }),
        async (plan, weights) => {
          const raw = seasonsOf(plan, 3);
          const { all: sample } = await samplesFor(plan, 3, 0);
          const weight = (state: HoleState): number => weights[STATES.indexOf(state)]!;
          const ofStage = (s: number): number =>
            total(
              STATES.map((state) => weight(state) * (total(raw.map(({ ledger }) => ledger[s]![state])) / 3)),
            );
          plan.stages.forEach((_, s) => {
            expect(weightedHoleDays(sample, weight, s)).toBeCloseTo(ofStage(s), 8);
          });
          expect(weightedHoleDays(sample, weight)).toBeCloseTo(
            total(plan.stages.map((_, s) => ofStage(s))),
            7,
          );
        },
      ),
      { numRuns: 50 },
    );
  });
});
