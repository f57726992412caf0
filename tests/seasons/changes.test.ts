/** The changes that are tried: each changes one thing, by as much as it says. */

import { describe, expect, test } from 'vitest';
import { SOWN, UNSOWN } from '../../sim/models/ledger.js';
import { Line } from '../../sim/models/line/line.js';
import type { Plan } from '../../sim/models/plan.js';
import { refills } from '../../sim/models/refill.js';
import { applied, type Change, changesOf, shareAdded } from '../../sim/seasons/changes.js';
import { crop, every, grow, line, stage, time, visitDays } from '../support/plans.js';

const WEEKS = 10;
const DAYS = 7 * WEEKS;

function plan(seeds: number, rest: Partial<Plan> = {}): Plan {
  return line([stage('finishing', 5000)], [crop([grow(time(20))], every(1, DAYS, seeds))], {
    weeks: WEEKS,
    ...rest,
  });
}

function kinds(of: Plan): string[] {
  return changesOf(of).map(({ kind }) => kind);
}

describe('10 % more seeds', () => {
  const SEEDS: Change = { kind: 'seeds', percent: 10 };

  test.each([
    [1, 77],
    [3, 231],
    [10, 770],
    [100, 7700],
  ])('of %d at each of 70 sowings are %d in all, whole ones and evenly spread', (seeds, sum) => {
    const changed = applied(plan(seeds), SEEDS);
    const { counts } = new Line(changed).run(1, 0);
    expect(counts[SOWN]! + counts[UNSOWN]!).toBe(sum);
    const { sowing } = changed.crops[0]!;
    const more = sowing.kind === 'due' ? sowing.more! : [];
    for (const [k] of more.entries()) {
      const upTo = more.slice(0, k + 1).reduce((all, one) => all + one, 0);
      expect(Math.abs(upTo - (k + 1) * seeds * 0.1)).toBeLessThanOrEqual(0.5 + 1e-9);
    }
    expect(shareAdded(plan(seeds), SEEDS)).toBeCloseTo(0.1, 12);
  });

  test('are sown where they fall due, also after an absence', () => {
    const visits = visitDays(WEEKS, [1, 0, 0, 0, 0, 0, 0]);
    const { counts } = new Line(applied(plan(3, { visits }), SEEDS)).run(1, 0);
    // The last visit is on day 63: 64 sowings of 3.3.
    expect(counts[SOWN]).toBe(Math.round(64 * 3.3));
  });

  test('leave a crop that is refilled beside them as much less room as the same seeds in the scenario do', () => {
    const beside = (seeds: number): Plan => {
      const refilled = { ...crop([grow(time(20))], every(1, DAYS, 1)), sowing: { kind: 'refill' as const } };
      return { ...plan(seeds), crops: [crop([grow(time(20))], every(1, DAYS, seeds)), refilled] };
    };
    expect(refills(applied(beside(100), SEEDS))).toEqual(refills(beside(110)));
  });

  test('are not tried where they would not make one seed', () => {
    const rare = { ...plan(1), crops: [crop([grow(time(20))], every(30, DAYS, 1))] };
    expect(kinds(rare)).toEqual(['channel']);
    expect(kinds(plan(1))).toEqual(['channel', 'seeds']);
  });
});

describe('visits', () => {
  /** Every other day, but for days 20 to 29. */
  function awayFor(pattern: readonly number[]): Plan {
    const all = visitDays(WEEKS, pattern);
    const days = all.kind === 'days' ? all.days : [];
    const gone = (day: number): boolean => day >= 20 && day < 30;
    return plan(3, {
      visits: {
        kind: 'days',
        days: days.filter((day) => !gone(day)),
        away: { days: Array.from({ length: 10 }, (_, i) => 20 + i), visits: days.filter(gone) },
      },
    });
  }
  const daysOf = ({ visits }: Plan): readonly number[] => (visits.kind === 'days' ? visits.days : []);

  test('every day leave an absence as it is', () => {
    const every2 = awayFor([1, 0]);
    const days = daysOf(applied(every2, { kind: 'visits' }));
    expect(days).toEqual(Array.from({ length: DAYS }, (_, day) => day).filter((day) => day < 20 || day > 29));
    expect(shareAdded(every2, { kind: 'visits' })).toBeCloseTo(60 / 30 - 1, 12);
  });

  test('of somebody who is never away keep to the days of the visits', () => {
    const every2 = awayFor([1, 0]);
    expect(daysOf(applied(every2, { kind: 'away' }))).toEqual(
      daysOf(plan(3, { visits: visitDays(WEEKS, [1, 0]) })),
    );
    expect(shareAdded(every2, { kind: 'away' })).toBeCloseTo(5 / 30, 12);
  });

  test('are tried only where the change changes anything', () => {
    expect(kinds(awayFor([1, 0]))).toEqual(['channel', 'seeds', 'visits', 'away']);
    // Daily: only the absence is left to be taken away.
    expect(kinds(awayFor([1]))).toEqual(['channel', 'seeds', 'away']);
    // On day 0, 70, ... only: the absence takes no visit away.
    expect(kinds(awayFor([1, ...new Array<number>(69).fill(0)]))).toEqual(['channel', 'seeds', 'visits']);
    expect(kinds(plan(3))).toEqual(['channel', 'seeds']);
  });
});

test('1 % of the channels of a stage are tried, at least one', () => {
  const channels = (count: number): Change =>
    changesOf({ ...plan(3), stages: [{ ...stage('finishing', 8), channels: count }] })[0]!;
  expect([1, 8, 149, 150, 467, 1600].map((count) => channels(count))).toEqual(
    [1, 1, 1, 2, 5, 16].map((count) => ({
      kind: 'channel',
      stage: 'finishing',
      channels: count,
      holes: 8 * count,
    })),
  );
});

test('growing that takes longer does so in every stage, in regrowth and in observed times', () => {
  const observed = { shape: 'observed', days: 15, spread: 0.2, times: [10, 20] } as const;
  const longer = applied(
    {
      ...plan(3),
      crops: [
        crop([grow(time(20, 0.3)), grow(observed)], every(1, DAYS, 1), { cuts: 2, regrow: grow(time(8)) }),
      ],
    },
    { kind: 'growing', percent: 10 },
  ).crops[0]!;
  expect([...longer.stages, longer.regrow!].map(({ time: { days, spread } }) => [days, spread])).toEqual([
    [expect.closeTo(22, 12), 0.3],
    [expect.closeTo(16.5, 12), 0.2],
    [expect.closeTo(8.8, 12), 0],
  ]);
  expect(longer.stages[1]!.time.times).toEqual([expect.closeTo(11, 12), expect.closeTo(22, 12)]);
});
