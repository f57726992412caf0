import { describe, expect, test } from 'vitest';
import type { Season } from '../../sim/models/ledger.js';
import { Line } from '../../sim/models/line/line.js';
import { firstRunningWeek, firstRunningWeekOf, Tallies } from '../../sim/seasons/tallies.js';
import { summarise } from '../../sim/study/summary.js';
import { crop, every, grow, line, stage, time, visitDays } from '../support/plans.js';

const WEEKS = 10;
const plan = line(
  [stage('tray', 20), stage('finishing', 30)],
  [
    crop([grow(time(6, 0.2), { loss: 0.05 }), grow(time(15, 0.2))], every(4, WEEKS * 7, 6), {
      germination: 0.9,
    }),
  ],
  { weeks: WEEKS, visits: visitDays(WEEKS, [1, 0, 1]) },
);

/** A season in which only the picks matter. */
function picked(weekPicks: readonly number[], firstPick: number): Season {
  return {
    counts: new Float64Array(10),
    ledger: new Float64Array(18),
    weekPicks: Float64Array.from(weekPicks),
    weekDiscards: new Float64Array(2 * WEEKS),
    firstPick,
    takes: null,
  };
}

test('tallies of parts, merged in any order, are those of the whole to the last digit', () => {
  const simulator = new Line(plan);
  const whole = new Tallies(plan);
  const parts = [new Tallies(plan), new Tallies(plan), new Tallies(plan)];
  for (let i = 0; i < 30; i++) {
    whole.add(simulator.run(1, i));
    parts[(i * 7) % 3]!.add(simulator.run(1, i));
  }
  const merged = new Tallies(plan);
  for (const part of [parts[2]!, parts[0]!, parts[1]!]) merged.merge(part);
  expect(summarise(plan, 1, merged, null, false)).toEqual(summarise(plan, 1, whole, null, false));
});

test('tallies sent as plain data are the same tallies', () => {
  const tallies = new Tallies(plan);
  for (let i = 0; i < 5; i++) tallies.add(new Line(plan).run(1, i));
  const sent = new Tallies(plan, JSON.parse(JSON.stringify(tallies.toData())));
  expect(summarise(plan, 1, sent, null, false)).toEqual(summarise(plan, 1, tallies, null, false));
  sent.merge(tallies);
  expect(sent.seasons).toBe(10);
  expect(sent.counts.mean(0)).toBe(tallies.counts.mean(0));
});

describe('the first running week', () => {
  const four = line([stage('a', 5), stage('b', 5)], [crop([grow(time(1)), grow(time(1))], every(1, 28, 1))], {
    weeks: 4,
  });

  test.each([
    // One season more has picked by then in k of n + 1 cases: 18 of 20, 9 of 11.
    { early: 18, week: 2 },
    { early: 9, week: 4 },
    // Of few seasons all are needed.
    { early: 4, week: 4 },
  ])(
    'is week $week where $early of the seasons, and not one more, have picked by the second',
    ({ early, week }) => {
      const seasons = [
        ...new Array<Season>(early).fill(picked([0, 1, 2, 3], 13.9)),
        picked([0, 0, 0, 3], 21),
      ];
      const tallies = new Tallies(four);
      for (const season of seasons) tallies.add(season);
      expect(firstRunningWeek(tallies)).toBe(week);
      const picks = seasons.map(({ weekPicks }) => [...weekPicks.subarray(0, 4)]);
      expect(firstRunningWeekOf(picks, 4)).toBe(week);
    },
  );

  test('is the week after when the first pick falls on the first day of a week', () => {
    const tallies = new Tallies(four);
    for (let i = 0; i < 10; i++) tallies.add(picked([0, 0, 2, 3], 14));
    expect(firstRunningWeek(tallies)).toBe(3);
  });

  test('does not exist when more than 1 season in 10 picks nothing', () => {
    const tallies = new Tallies(four);
    for (let i = 0; i < 8; i++) tallies.add(picked([1, 1, 2, 3], 1));
    for (let i = 0; i < 2; i++) tallies.add(picked([0, 0, 0, 0], Number.NaN));
    expect(firstRunningWeek(tallies)).toBe(4);
    expect(summarise(four, 1, tallies, null, false).running).toBeNull();
  });
});

describe('a summary', () => {
  const four = line([stage('a', 5), stage('b', 5)], [crop([grow(time(1)), grow(time(1))], every(1, 28, 1))], {
    weeks: 4,
  });

  test('takes the weeks of a running line together', () => {
    const tallies = new Tallies(four);
    for (let i = 0; i < 10; i++) tallies.add(picked([1, 10, i === 0 ? 0 : 20, 30], 3));
    const { running } = summarise(four, 1, tallies, null, false);
    // Weeks 2 to 4 of ten seasons: ten times 10, one 0, nine times 20, ten times 30.
    expect(running).toMatchObject({
      from: '2027-01-11',
      weeks: 3,
      mean: expect.closeTo((100 + 180 + 300) / 30, 12),
      p50: 20,
      p10: 10,
      without_pick: 1 / 30,
    });
  });

  test('counts seasons without a pick as later than all others', () => {
    const tallies = new Tallies(four);
    for (let i = 0; i < 8; i++) tallies.add(picked([0, 1, 1, 1], 7 + i));
    for (let i = 0; i < 3; i++) tallies.add(picked([0, 0, 0, 0], Number.NaN));
    const { first_pick } = summarise(four, 1, tallies, null, false);
    expect(first_pick).toEqual({
      p10: '2027-01-12',
      p50: '2027-01-16',
      p90: null,
      p50_days: 12,
      never: expect.closeTo(3 / 11, 12),
    });
  });

  test('of one season has no standard errors', () => {
    const tallies = new Tallies(plan);
    tallies.add(new Line(plan).run(plan.seed, 0));
    const result = summarise(plan, 1, tallies, null, false);
    expect(result.counts.sown.se).toBeNull();
    expect(result.weeks[0]!.se).toBeNull();
  });
});
