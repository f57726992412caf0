/**
 * Lines without luck: fixed times, and every number can be worked out on paper.
 *
 * The n-th plant of a line whose plants wait outside: D_0(n) = max(A(n), D_1(n - c_1)), D_j(n) =
 * max(D_{j-1}(n) + S_j, D_{j+1}(n - c_{j+1})), D_J(n) = D_{J-1}(n) + S_J. In the long run min(b/T, min c_j/S_j) are
 * picked a day; when plants move on visits V days apart only, S_j is V ceil(S_j / V). Tables computed independently
 * from the recursion, twice.
 */

import { describe, expect, test } from 'vitest';
import { BLOCKED, GROWING, HELD, STATE_COUNT, UNSUPPLIED } from '../../sim/models/ledger.js';
import { Line } from '../../sim/models/line/line.js';
import type { Plan, Visits } from '../../sim/models/plan.js';
import { runOf } from '../support/laws.js';
import { notesOf } from '../support/logs.js';
import { always, crop, every, grow, line, stage, time, visitDays } from '../support/plans.js';

/** Plants wait outside in a stage that takes them 2^-20 d; all that they do is later by as much. */
const OUTSIDE = 2 ** -20;

function waitingOutside(
  holes: readonly number[],
  times: readonly number[],
  [seeds, cadence]: readonly [number, number],
  weeks: number,
  visits: Visits = always,
): Plan {
  const sowing = every(cadence, 7 * weeks, seeds);
  const total = seeds * Math.ceil((7 * weeks) / cadence);
  return line(
    [stage('outside', total), ...holes.map((c, s) => stage(`stage ${s + 1}`, c))],
    [crop([grow(time(OUTSIDE)), ...times.map((days) => grow(time(days)))], sowing)],
    { weeks, visits },
  );
}

test('one seed a day gives one head a day, for ever', () => {
  const days = 7 * 52;
  const plan = line(
    [stage('germination', 3), stage('nursery', 14), stage('finishing', 24)],
    [crop([grow(time(3)), grow(time(14)), grow(time(24))], every(1, days, 1))],
    { weeks: 52 },
  );
  const expected: string[] = [];
  for (let day = 0; day < days; day++) {
    // What ripens is heard of first (in the order in which it began to), then the visit works back to front.
    for (const [age, s] of [
      [41, 2],
      [17, 1],
      [3, 0],
    ] as const) {
      if (day >= age) expected.push(`${day} ripen ${day - age} in ${s}`);
    }
    for (const [age, deed, s] of [
      [41, 'pick', 2],
      [17, 'move', 2],
      [3, 'move', 1],
    ] as const) {
      if (day >= age) expected.push(`${day} ${deed} ${day - age} in ${s}`);
    }
    expected.push(`${day} sow ${day} in 0`);
  }
  const heard = notesOf(new Line(plan)).map(
    (note) => `${note.t} ${note.deed} ${note.plant} in ${note.stage}`,
  );
  expect(heard).toEqual(expected);
  const { season } = runOf(plan);
  // 3 + 14 + 24 holes are just enough: 2 cells are empty on day 0, 1 on day 1, and none ever again.
  expect(season.ledger[UNSUPPLIED]).toBe(2 + 1);
  expect(season.ledger[2 * STATE_COUNT + GROWING]).toBe(24 * (days - 41) + (24 * 24) / 2 + 12);
  expect(season.ledger[BLOCKED]! + season.ledger[STATE_COUNT + BLOCKED]!).toBe(0);
});

describe('the hand table: 2 holes of 2 d, 3 holes of 5 d, two seeds on days 0, 3, 6, 9, 12', () => {
  const outside = { kind: 'due', days: [0, 3, 6, 9, 12], seeds: 2 } as const;
  const plan = line(
    [stage('outside', 10), stage('first', 2), stage('second', 3)],
    [crop([grow(time(OUTSIDE)), grow(time(2)), grow(time(5))], outside)],
    { weeks: 4 },
  );
  const { season, notes } = runOf(plan);
  const times = (deed: string, s: number): number[] =>
    notes
      .filter((note) => note.deed === deed && note.stage === s)
      .sort((a, b) => a.plant - b.plant)
      .map(({ t }) => t - OUTSIDE);

  test('plants come into the first stage on these days', () => {
    expect(times('move', 1)).toEqual([0, 0, 3, 3, 6, 7, 9, 10, 12, 13]);
  });

  test('leave it on these', () => {
    expect(times('move', 2)).toEqual([2, 2, 5, 7, 8, 10, 12, 13, 15, 17]);
  });

  test('and are picked on these', () => {
    expect(times('pick', 2)).toEqual([7, 7, 10, 12, 13, 15, 17, 18, 20, 22]);
  });

  test('8 hole-days are blocked, 28 and 50 used, 3 d were waited outside', () => {
    expect(season.ledger[BLOCKED]).toBe(3);
    expect(season.ledger[STATE_COUNT + BLOCKED]).toBe(8);
    expect(season.ledger[STATE_COUNT + GROWING]! + season.ledger[STATE_COUNT + BLOCKED]!).toBe(28);
    expect(season.ledger[2 * STATE_COUNT + GROWING]! + season.ledger[2 * STATE_COUNT + HELD]!).toBe(50);
  });
});

describe('the long run: the scarcest stage sets the harvest', () => {
  const rows = [
    {
      holes: [6, 24, 36],
      times: [3, 14, 24],
      sow: [6, 4],
      any: 3 / 2,
      weekly: 6 / 7,
      first: [41, 41, 41, 41, 41, 41, 45, 45, 45, 45, 45, 45],
    },
    {
      holes: [6, 20, 30],
      times: [3, 14, 24],
      sow: [6, 4],
      any: 5 / 4,
      weekly: 6 / 7,
      first: [41, 41, 41, 41, 41, 41, 45, 45, 45, 45, 45, 45],
    },
    {
      holes: [8, 16, 30],
      times: [3, 14, 24],
      sow: [6, 4],
      any: 8 / 7,
      weekly: 15 / 14,
      first: [41, 41, 41, 41, 41, 41, 45, 45, 45, 45, 45, 45],
    },
    {
      holes: [2, 5, 9],
      times: [3, 14, 24],
      sow: [3, 7],
      any: 5 / 14,
      weekly: 2 / 7,
      first: [41, 41, 44, 48, 48, 55, 55, 58, 62, 65, 69, 69],
    },
    {
      holes: [3, 14, 24],
      times: [3, 14, 24],
      sow: [1, 1],
      any: 1,
      weekly: 3 / 7,
      first: [41, 42, 43, 44, 45, 46, 47, 48, 49, 50, 51, 52],
    },
    {
      holes: [4, 14, 24],
      times: [3, 14, 24],
      sow: [2, 2],
      any: 1,
      weekly: 4 / 7,
      first: [41, 41, 43, 43, 45, 45, 47, 47, 49, 49, 51, 51],
    },
  ] as const;

  /** A common period of all schedules below: 2^4 x 3 x 5 x 7 d. */
  const PERIOD = 240;

  test.each(rows)('$holes holes, $sow seeds and days: $any a day, first picks as in the table', (row) => {
    const { season, notes } = runOf(waitingOutside(row.holes, row.times, row.sow, 2 * PERIOD));
    const picks = notes.filter(({ deed }) => deed === 'pick').map(({ t }) => t - OUTSIDE);
    expect(picks.slice(0, row.first.length)).toEqual(row.first);
    const lastPeriod = season.weekPicks.subarray(PERIOD).reduce((sum, n) => sum + n, 0);
    expect(lastPeriod).toBe(row.any * 7 * PERIOD);
  });

  test.each(rows)('$holes holes, $sow seeds and days: $weekly a day with a visit a week', (row) => {
    const visits = visitDays(2 * PERIOD, [1, 0, 0, 0, 0, 0, 0]);
    const { season } = runOf(waitingOutside(row.holes, row.times, row.sow, 2 * PERIOD, visits));
    const lastPeriod = season.weekPicks.subarray(PERIOD).reduce((sum, n) => sum + n, 0);
    expect(lastPeriod).toBeCloseTo(row.weekly * 7 * PERIOD, 9);
  });
});

test('sown every 3 d, a stage of 14 d holds 5 batches, then 4, and 14/3 on average', () => {
  const plan = line([stage('nursery', 5)], [crop([grow(time(14))], every(3, 420, 1))], { weeks: 60 });
  const levels = new Set<number>();
  let batches = 0;
  let area = 0;
  let since = 0;
  for (const { t, deed } of notesOf(new Line(plan))) {
    if (deed !== 'sow' && deed !== 'pick') continue;
    // Whole periods of 3 d between day 42 and day 402.
    if (t > 42 && t <= 402) {
      levels.add(batches);
      area += batches * (t - Math.max(since, 42));
    }
    batches += deed === 'sow' ? 1 : -1;
    since = t;
  }
  expect([...levels].sort()).toEqual([4, 5]);
  expect(area / 360).toBeCloseTo(14 / 3, 12);
});
