/** A log read off as intervals, on lines small enough to follow on paper. */

import { expect, test } from 'vitest';
import { type Observations, observe } from '../../../sim/season/fit/observations.js';
import type { LineAction, LogRow } from '../../../sim/season/log/rows.js';
import { crop, grow, line, stage, time, visitDays } from '../../support/plans.js';

/**
 * `day action count batch stage [note]`, days from 2027-01-04; crop `leaf` unless the batch is called by a
 * crop: `basil:B1`.
 */
function rows(text: string): LogRow[] {
  return text
    .trim()
    .split('\n')
    .map((row) => {
      const [day, action, count, name, stageName, ...note] = row.trim().split(' ');
      const [batch, cropName = 'leaf'] = name!.split(':').reverse();
      return {
        line: 0,
        date: `2027-01-${String(4 + Number(day)).padStart(2, '0')}`,
        action: action as LineAction,
        crop: action === 'clean' ? '' : cropName,
        batch: action === 'clean' ? '' : batch!,
        stage: stageName!,
        channel: null,
        count: Number(count),
        grams: null,
        note: note.length === 0 ? null : note.join(' '),
      };
    });
}

const growing = [grow(time(5)), grow(time(10))];
/** One sowing: later on nothing is due that would show whether somebody came. */
const ONCE = { kind: 'due', days: [0], seeds: 4 } as const;

/** A tray of 20 cells and a finishing stage; tended on Mondays, Wednesdays and Fridays. */
const plan = (holes: number, rest: Parameters<typeof line>[2] = { weeks: 4 }) =>
  line([stage('tray', 20), stage('finishing', holes)], [crop(growing, ONCE)], {
    visits: visitDays(4, [1, 0, 1, 0, 1, 0, 0]),
    ...rest,
  });

const STAGES = ['tray', 'finishing'];

const shortDays = ({ stages }: Observations, s: number): number[] =>
  stages[s]!.record.visits.filter(({ short }) => short).map(({ day }) => day);

const LOG = rows(`
  0 sow 4 B1 tray
  7 lose 1 B1 tray failed
  7 move 2 B1 finishing
  9 move 1 B1 finishing
  18 pick 2 B1 finishing
`);

test('without a plan the visits are the days with a row, and holes are never short', () => {
  const seen = observe(LOG, STAGES, null);
  expect(seen).toMatchObject({ crops: ['leaf'] });
  expect(seen.stages[0]!.record).toEqual({
    visits: [0, 7, 9, 18].map((day) => ({ day, short: false })),
    groups: [
      {
        kind: 0,
        entries: [{ day: 0, count: 4 }],
        ready: [
          { visit: 1, count: 2 },
          { visit: 2, count: 1 },
        ],
        dead: [{ visit: 1, count: 1, cause: 'failed' }],
        standing: 0,
      },
    ],
  });
  expect(seen.stages[1]!.record.groups).toEqual([
    {
      kind: 0,
      entries: [
        { day: 7, count: 2 },
        { day: 9, count: 1 },
      ],
      ready: [{ visit: 3, count: 2 }],
      dead: [],
      standing: 1,
    },
  ]);
});

test('with a plan a visit day without a row is a visit too, within the log only', () => {
  const seen = observe(LOG, STAGES, plan(8));
  expect(seen.stages[0]!.record.visits.map(({ day }) => day)).toEqual([0, 2, 4, 7, 9, 11, 14, 16, 18]);
});

test('nobody came while a sowing was due that is not in the log', () => {
  const weekly = plan(8, {
    weeks: 4,
    crops: [crop(growing, { kind: 'due', days: [0, 7, 14, 21], seeds: 4 })],
  });
  const log = [...LOG.slice(0, 2), ...rows('7 sow 4 B2 tray'), ...LOG.slice(2)];
  // Due again on day 14; the rows before and after it are of days 9 and 18.
  expect(observe(log, STAGES, weekly).stages[0]!.record.visits.map(({ day }) => day)).toEqual([
    0, 2, 4, 7, 9, 18,
  ]);
});

test('nobody came between rows that are more than 10 days apart', () => {
  const log = [...LOG.slice(0, 4), ...rows('20 pick 2 B1 finishing')];
  expect(observe(log, STAGES, plan(8)).stages[0]!.record.visits.map(({ day }) => day)).toEqual([
    0, 2, 4, 7, 9, 20,
  ]);
});

test('the log may begin before the plan does: days count from the first row', () => {
  const seen = observe(LOG, STAGES, { ...plan(8), start: '2027-01-11' });
  expect(seen.stages[0]!.record.visits.map(({ day }) => day)).toEqual([0, 7, 9, 11, 14, 16, 18]);
});

test('a visit that leaves no hole free in the next stage is short, until a pick makes room', () => {
  const seen = observe(LOG, STAGES, plan(3));
  // Full from day 9 on, with the third plant; two go on day 18.
  expect(shortDays(seen, 0)).toEqual([9, 11, 14, 16]);
  expect(shortDays(seen, 1)).toEqual([]);
});

test('a hole that is being cleaned is no free hole', () => {
  const cleaned = plan(3, {
    weeks: 4,
    stages: [stage('tray', 20), stage('finishing', 3, 2)],
  });
  const log = [...LOG, ...rows('21 lose 1 B1 finishing dead')];
  // Two days of cleaning after day 18: a visit on day 18 finds no hole, one on day 21 does.
  expect(shortDays(observe(log, STAGES, cleaned), 0)).toEqual([9, 11, 14, 16, 18]);
});

test('holes that a row says are being cleaned are not free either, until plants come in that must use them', () => {
  const log = rows(`
    0 sow 9 B1 tray
    7 move 1 B1 finishing
    7 clean 2 - finishing
    9 move 1 B1 finishing
    11 lose 1 B1 finishing
  `);
  // On day 9 one of the two cleaned holes must have been used; the other is still out until one more is free.
  expect(shortDays(observe(log, STAGES, plan(3)), 0)).toEqual([7, 9]);
});

test('holes that rest after their plants have left come beside those that a row names', () => {
  const log = rows(`
    0 sow 9 B1 tray
    7 move 2 B1 finishing
    7 clean 2 - finishing
    18 pick 2 B1 finishing
  `);
  const cleaned = plan(4, { weeks: 4, stages: [stage('tray', 20), stage('finishing', 4, 2)] });
  // Of four holes two are still out by the row, and the two that were left on day 18 rest until day 20.
  expect(shortDays(observe(log, STAGES, cleaned), 0)).toEqual([7, 18]);
});

test('picks come before moves, however the rows of a day are written: what comes in takes the holes that were left', () => {
  const log = rows(`
    0 sow 9 B1 tray
    7 move 2 B1 finishing
    7 clean 1 - finishing
    16 move 1 B1 finishing
    16 pick 1 B1 finishing
  `);
  // So on day 16 the hole that the row names was not needed, and is still out.
  expect(shortDays(observe(log, STAGES, plan(3)), 0)).toEqual([7, 9, 11, 14, 16]);
});

test('where only so many heads are wanted, picks that reach that are short, and so is every visit on another day', () => {
  const want = { heads: 2, days: [4, 11, 18, 25] };
  const seen = observe(LOG, STAGES, plan(8, { weeks: 4, want }));
  // On days 4 and 11 fewer than 2 were picked, so all that were ready were; on day 18 two were.
  expect(shortDays(seen, 1)).toEqual([0, 2, 7, 9, 14, 16, 18]);
});

test('what was thrown away because it had been ready too long was ready; all else that is lost is dead', () => {
  const log = rows(`
    0 sow 6 B1 tray
    7 lose 1 B1 tray Discarded, leggy
    7 lose 1 B1 tray stood too long
    9 lose 1 B1 tray damped off
    9 lose 1 B1 tray
    9 lose 1 B1 tray did not sprout
  `);
  const [group] = observe(log, STAGES, null).stages[0]!.record.groups;
  expect(group).toMatchObject({
    ready: [{ visit: 1, count: 2 }],
    dead: [
      { visit: 2, count: 1 },
      { visit: 2, count: 1, cause: 'died' },
      { visit: 2, count: 1, cause: 'failed' },
    ],
    standing: 1,
  });
});

test('beyond the first stage nothing fails, whatever a note says', () => {
  const log = rows(`
    0 sow 2 B1 tray
    7 move 2 B1 finishing
    9 lose 1 B1 finishing failed
    9 lose 1 B1 finishing died
  `);
  const [group] = observe(log, STAGES, null).stages[1]!.record.groups;
  expect(group!.dead).toEqual([{ visit: 2, count: 2 }]);
});

test('each crop is a kind of its own, in the order of its first row', () => {
  const log = rows(`
    0 sow 3 basil:B1 tray
    2 sow 4 B2 tray
    9 move 2 B2 finishing
  `);
  const seen = observe(log, STAGES, null);
  expect(seen.crops).toEqual(['basil', 'leaf']);
  expect(seen.stages[0]!.record.groups.map(({ kind, standing }) => [kind, standing])).toEqual([
    [0, 3],
    [1, 2],
  ]);
  expect(seen.stages[1]!.record.groups.map(({ kind }) => kind)).toEqual([1]);
});

test('of a crop with several cuts the plant that is due first is taken to be picked first', () => {
  const regrow = grow(time(4));
  const cut = line([stage('tray', 20), stage('finishing', 8)], [crop(growing, ONCE, { cuts: 2, regrow })], {
    weeks: 4,
    visits: visitDays(4),
  });
  const log = rows(`
    0 sow 3 B1 tray
    5 move 2 B1 finishing
    8 move 1 B1 finishing
    15 pick 2 B1 finishing
    18 pick 1 B1 finishing
    19 pick 2 B1 finishing
    22 lose 1 B1 finishing
  `);
  const seen = observe(log, STAGES, cut);
  const { kinds, record } = seen.stages[1]!;
  expect(kinds).toEqual([
    { crop: 0, regrowth: false },
    { crop: 0, regrowth: true },
  ]);
  const told = record.groups.map(({ kind, entries, ready, dead, standing }) => ({
    kind,
    entries,
    ready: ready.map(({ visit, count }) => [record.visits[visit]!.day, count]),
    dead: dead.map(({ visit, count }) => [record.visits[visit]!.day, count]),
    standing,
  }));
  expect(told).toEqual([
    { kind: 0, entries: [{ day: 5, count: 2 }], ready: [[15, 2]], dead: [], standing: 0 },
    { kind: 0, entries: [{ day: 8, count: 1 }], ready: [[18, 1]], dead: [], standing: 0 },
    { kind: 1, entries: [{ day: 15, count: 2 }], ready: [[19, 2]], dead: [], standing: 0 },
    { kind: 1, entries: [{ day: 18, count: 1 }], ready: [], dead: [[22, 1]], standing: 0 },
  ]);
});

test('a plant that has more cuts to give keeps its hole', () => {
  const cut = line(
    [stage('tray', 20), stage('finishing', 2)],
    [crop(growing, ONCE, { cuts: 2, regrow: grow(time(4)) })],
    { weeks: 4, visits: visitDays(4, [1, 0, 1, 0, 1, 0, 0]) },
  );
  const log = rows(`
    0 sow 4 B1 tray
    4 move 2 B1 finishing
    14 pick 2 B1 finishing
    18 pick 1 B1 finishing
    21 pick 1 B1 finishing
  `);
  expect(shortDays(observe(log, STAGES, cut), 0)).toEqual([4, 14, 16]);
});

test('of a log without rows nothing was observed', () => {
  expect(observe([], STAGES, null)).toEqual({ crops: [], stages: [] });
});
