/** Usual and bad weeks with their intervals: by hand, against order statistics, and how often they hold the truth. */

import { describe, expect, test } from 'vitest';
import { fillUniform, stream } from '../../sim/engine/random.js';
import { Histogram } from '../../sim/engine/tally.js';
import { Line } from '../../sim/models/line/line.js';
import type { Plan } from '../../sim/models/plan.js';
import { type WeekCounts, weekQuantile, weekQuantileDifference } from '../../sim/seasons/week-quantiles.js';
import { sectionsFor } from '../../sim/seasons/workload.js';
import { crop, every, grow, line, stage, time, visitDays } from '../support/plans.js';

type Weeks = ArrayLike<number>;

/** As a study deals its seasons to sections. */
function countsOf(seasons: readonly Weeks[]): WeekCounts {
  const all = new Histogram();
  const sections = Array.from({ length: sectionsFor(seasons.length) }, () => new Histogram());
  seasons.forEach((weeks, i) => {
    for (let w = 0; w < weeks.length; w++) {
      all.add(weeks[w]!);
      sections[i % sections.length]!.add(weeks[w]!);
    }
  });
  return { all, sections };
}

function uniforms(name: string, study: number, count: number): Float64Array {
  const values = new Float64Array(count);
  fillUniform(stream(study, 0, [name]), values, count);
  return values;
}

describe('by hand', () => {
  test('weeks that are all alike in all seasons are known to the head', () => {
    const ours = countsOf(Array.from({ length: 12 }, () => [5, 9, 9, 9]));
    const theirs = countsOf(Array.from({ length: 12 }, () => [3, 7, 7, 7]));
    expect(weekQuantile(0.1, ours)).toEqual({ mean: 5, low: 5, high: 5 });
    expect(weekQuantile(0.5, ours)).toEqual({ mean: 9, low: 9, high: 9 });
    expect(weekQuantileDifference(0.5, ours, theirs)).toEqual({ mean: 2, low: 2, high: 2 });
    expect(weekQuantileDifference(0.5, theirs, ours)).toEqual({ mean: -2, low: -2, high: -2 });
  });

  test('a plan differs by nothing from itself, however little is known of it', () => {
    const weeks = countsOf(Array.from({ length: 12 }, (_, i) => [i, 2 * i, 30 - i]));
    expect(weekQuantile(0.5, weeks).low).toBeLessThan(weekQuantile(0.5, weeks).high!);
    expect(weekQuantileDifference(0.5, weeks, weeks)).toEqual({ mean: 0, low: 0, high: 0 });
  });

  test('where exactly half of the weeks bring nothing in every season, the usual week may as well be one with heads', () => {
    const weeks = countsOf(Array.from({ length: 20 }, () => [0, 0, 8, 8]));
    expect(weekQuantile(0.5, weeks)).toEqual({ mean: 0, low: 0, high: 8 });
  });

  test('of 36 weeks the bad one may lie below all that was seen; of 37 it is not so', () => {
    // ln 0.025 = -3.689: of 36 weeks 0.1 x 36 = 3.6 of the lowest tenth are expected, and none of 3.689 is seen in 1 of 40 cases.
    const weeks = (count: number) => countsOf(Array.from({ length: count }, () => [7]));
    expect(weekQuantile(0.1, weeks(36))).toEqual({ mean: 7, low: 0, high: 7 });
    expect(weekQuantile(0.1, weeks(37))).toEqual({ mean: 7, low: 7, high: 7 });
  });

  test('one section, or weeks so few that no upper end is known, have no interval', () => {
    const none = { low: null, high: null };
    expect(weekQuantile(0.5, countsOf([[1, 2, 3, 4, 5, 6, 7, 8, 9]]))).toEqual({ mean: 5, ...none });
    const few = countsOf([[4], [4], [4], [4], [4], [4], [4]]);
    expect(weekQuantile(0.5, few)).toEqual({ mean: 4, ...none });
    expect(weekQuantileDifference(0.5, few, few)).toEqual({ mean: 0, ...none });
  });
});

test.each([
  // Ranks l and u with P(l <= Bin(n, p) <= u - 1) of at least 95 %, computed independently.
  [100, 0.5, 40, 61],
  [50, 0.5, 18, 33],
  [100, 0.9, 84, 96],
  [200, 0.05, 4, 17],
])(
  'of %d weeks each with its own luck, the %d quantile has the interval of order statistics',
  (n, p, low, high) => {
    // One week a season, and its value is its rank. Sections leave luck of their own in what they tell.
    let [lows, highs] = [0, 0];
    for (let study = 0; study < 100; study++) {
      const luck = uniforms('ranks', study, n);
      const ranks = [...luck].map((one) => luck.filter((other) => other <= one).length);
      const found = weekQuantile(p, countsOf(ranks.map((rank) => [rank])));
      lows += found.low! / 100;
      highs += found.high! / 100;
    }
    // Ranks of order statistics are rounded outwards, by less than 1 each; the mean of 100 is known to a third of a rank.
    expect(Math.abs(lows - low)).toBeLessThan(1.5);
    expect(Math.abs(highs - high)).toBeLessThan(1.5);
  },
);

describe('at least 93 % of studies hold the truth', () => {
  const STUDIES = 300;
  // 95 % of 300 has a standard error of 1.3 %: on average over 12 cases 0.4 %.
  const WEEKS = 15;

  /** Seasons whose weeks hang together: each week brings `most` x (half its own luck, half that of its season), evenly. */
  function seasonsOf(study: number, count: number, most: number): Weeks[] {
    const luck = uniforms('together', study, count * (WEEKS + 1));
    return Array.from({ length: count }, (_, i) => {
      const ofSeason = luck[i * (WEEKS + 1)]!;
      return Array.from({ length: WEEKS }, (_, w) =>
        Math.floor((most * (ofSeason + luck[i * (WEEKS + 1) + 1 + w]!)) / 2),
      );
    });
  }

  /** Of a triangle from 0 to `most` the share p lies below most x sqrt(p / 2), up to p = 1/2. */
  const truthOf = (p: number, most: number): number => Math.floor(most * Math.sqrt(p / 2));

  test.each([12, 40, 200])('of %d seasons that differ, in small and large numbers', (seasons) => {
    for (const most of [7, 1000]) {
      const counts = Array.from({ length: STUDIES }, (_, study) => countsOf(seasonsOf(study, seasons, most)));
      for (const p of [0.1, 0.5]) {
        let holds = 0;
        for (const weeks of counts) {
          const { low, high } = weekQuantile(p, weeks);
          if (low! <= truthOf(p, most) && truthOf(p, most) <= high!) holds++;
        }
        expect(holds / STUDIES).toBeGreaterThanOrEqual(0.93);
        // Of large numbers no more than the 95 % that are claimed, and 3 standard errors.
        if (most === 1000) expect(holds / STUDIES).toBeLessThanOrEqual(0.95 + 3 * 0.013);
      }
    }
  });
});

describe('of 13 seasons of a line', () => {
  const SEASONS = 13;
  const STUDIES = 200;
  const POOL = 250;
  const LONG = 16;
  const FROM = 7;

  interface Line16 {
    readonly holes?: number;
    readonly every?: number;
    readonly seeds?: number;
    readonly visits?: readonly number[];
    readonly want?: number;
  }
  const plan = ({ holes = 24, every: k = 3, seeds = 6, visits = [1], want = 0 }: Line16): Plan =>
    line(
      [stage('nursery', 20), stage('finishing', holes)],
      [
        crop(
          [grow(time(12, 0.2), { loss: 0.05, keeps: 7 }), grow(time(16, 0.2), { keeps: 9 })],
          every(k, LONG * 7, seeds),
          {
            germination: 0.9,
          },
        ),
      ],
      {
        weeks: LONG,
        visits: visitDays(LONG, visits),
        want: want === 0 ? null : { heads: want, days: Array.from({ length: LONG * 2 }, (_, i) => i * 3) },
      },
    );
  const WEEKLY = [0, 0, 0, 0, 0, 1, 0];
  const CASES: [string, Line16, Line16][] = [
    ['daily', {}, { holes: 27 }],
    ['daily, more seeds', {}, { seeds: 7 }],
    ['weekly', { every: 7, seeds: 5, visits: WEEKLY }, { every: 7, seeds: 6, visits: WEEKLY }],
    ['in bursts', { every: 14, seeds: 20, holes: 40 }, { every: 13, seeds: 19, holes: 40 }],
    ['with a want', { want: 4 }, { want: 4, seeds: 7 }],
    ['with weeks without a pick', { every: 10, seeds: 4 }, { every: 9, seeds: 4 }],
  ];

  function poolOf(of: Line16): Weeks[] {
    const simulator = new Line(plan(of));
    return Array.from({ length: POOL }, (_, i) => simulator.run(3, i).weekPicks.slice(FROM));
  }

  test.each(CASES)(
    '%s: intervals hold the truth, and no difference is seen that is none',
    (_, one, other) => {
      // Studies draw from a pool, whose own quantile is then the truth exactly.
      const [ours, theirs] = [poolOf(one), poolOf(other)];
      for (const p of [0.1, 0.5]) {
        const [truth, others] = [ours, theirs].map((pool) => countsOf(pool).all.least(p)) as [number, number];
        let holds = 0;
        let wrong = 0;
        for (let study = 0; study < STUDIES; study++) {
          const drawn = [...uniforms('pool', study, SEASONS)].map((u) => Math.floor(u * POOL));
          const [a, b] = [ours, theirs].map((pool) => countsOf(drawn.map((i) => pool[i]!))) as [
            WeekCounts,
            WeekCounts,
          ];
          const { mean, low, high } = weekQuantile(p, a);
          for (const value of [mean, low, high]) expect(Number.isInteger(value)).toBe(true);
          if (low! <= truth && truth <= high!) holds++;
          const difference = weekQuantileDifference(p, b, a);
          const told = difference.low! > 0 ? 1 : difference.high! < 0 ? -1 : 0;
          if (told !== 0 && told !== Math.sign(others - truth)) wrong++;
        }
        expect(holds / STUDIES).toBeGreaterThanOrEqual(0.93);
        expect(wrong / STUDIES).toBeLessThanOrEqual(0.07);
      }
    },
  );
});
