/** Minutes of each coming visit: a line whose work is done on paper, and with luck the sums that a season books of its own. */

import { expect, test } from 'vitest';
import type { WorkTimes } from '../../../sim/models/physical/plan.js';
import type { Plan } from '../../../sim/models/plan.js';
import { lookAhead } from '../../../sim/season/ahead/ahead.js';
import { type ChoresResult, listChores } from '../../../sim/season/ahead/chores.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { oneCrop } from '../../support/clockwork.js';
import { expectNear } from '../../support/near.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { simulatedLog } from '../../support/simulated-log.js';

/** Each second of another deed, so that none is taken for another. */
const WORK: WorkTimes = { sowS: 6, moveS: 12, pickS: 45, clearS: 9, cleanS: 30, visitMin: 10, tankMin: 3 };

/** Tray of 6 cells, 4 d; 4 wide holes, 10 d and a day of cleaning; 2 seeds every 7 days; visits on Mon, Wed, Fri. */
function plan(rest: Partial<Plan> = {}): Plan {
  return line(
    [stage('tray', 6), stage('wide', 4, 1)],
    [crop([grow(time(4)), grow(time(10))], every(7, 70, 2))],
    {
      weeks: 10,
      visits: visitDays(10, [1, 0, 1, 0, 1, 0, 0]),
      physical: { ...oneCrop().physical, work: WORK },
      ...rest,
    },
  );
}

async function list(
  one: Plan,
  rows: readonly LogRow[],
  asked: { today?: string; days: number; futures?: number },
): Promise<ChoresResult> {
  const reading = await listChores(one, rows, { today: null, futures: 3, ...asked });
  if (reading === null || !reading.ok) throw new Error(JSON.stringify(reading));
  return reading.value;
}

test('by hand: 13 minutes a visit, and the seconds of what is done', async () => {
  const { visits, weeks } = await list(plan(), [], { days: 15 });
  const byHand: Readonly<Record<string, number>> = {
    '2027-01-04': 13 + (2 * 6) / 60, // sow 2
    '2027-01-06': 13,
    '2027-01-08': 13 + (2 * 12) / 60, // move 2; the tray is not cleaned
    '2027-01-11': 13 + (2 * 6) / 60,
    '2027-01-13': 13,
    '2027-01-15': 13 + (2 * 12) / 60,
    '2027-01-18': 13 + (2 * 45 + 2 * 30 + 2 * 6) / 60, // pick 2, clean their 2 holes, sow 2
  };
  expect(visits.map(({ date }) => date)).toEqual(Object.keys(byHand));
  for (const { date, minutes } of visits) {
    // Without luck all futures are alike.
    for (const of of ['mean', 'p10', 'p50', 'p90'] as const)
      expectNear(minutes![of], byHand[date]!, 1e-12, `${date} ${of}`);
  }
  expectNear(weeks[0]!.minutes!.mean, 39.6, 1e-12, 'first week');
});

test('by hand: what is overgrown is cleared', async () => {
  // Two holes only: the third seedling of B1 is ready on day 4, keeps 6 d and is overgrown on Fri 15 Jan.
  const tight = plan({
    stages: [stage('tray', 9), stage('wide', 2)],
    crops: [crop([grow(time(4), { keeps: 6 }), grow(time(10))], every(7, 70, 3))],
  });
  const rows = simulatedLog(tight, 1, 0, { until: 10 });
  const { visits } = await list(tight, rows, { today: '2027-01-14', days: 2 });
  expect(visits.map(({ date }) => date)).toEqual(['2027-01-15']);
  expectNear(visits[0]!.minutes!.mean, 13 + 9 / 60, 1e-12);
});

const LUCKY = plan({
  weeks: 24,
  visits: visitDays(24, [1, 0, 1, 0, 1, 0, 0]),
  crops: [
    crop(
      [grow(time(4, 0.3), { loss: 0.1, keeps: 6 }), grow(time(10, 0.3), { loss: 0.1, keeps: 5 })],
      every(7, 168, 5),
      { germination: 0.8 },
    ),
  ],
});

test.each([
  ['from an empty line', []],
  ['from what stands', simulatedLog(LUCKY, 1, 0, { until: 42 })],
])('with luck, %s: weeks are those of the deeds that a season books itself', async (_, rows) => {
  const today = rows.length === 0 ? undefined : '2027-02-15';
  const asked = { ...(today === undefined ? {} : { today }), futures: 20 };
  const { weeks, visits } = await list(LUCKY, rows, { ...asked, days: 28 });
  const looked = await lookAhead(LUCKY, rows, { today: null, ...asked, weeks: 4 });
  if (looked === null || !looked.ok) throw new Error(JSON.stringify(looked));
  const booked = looked.value.takes!.weeks;
  expect(weeks.map(({ start }) => start)).toEqual(booked.map(({ start }) => start));
  weeks.forEach(({ minutes }, week) => {
    for (const of of ['mean', 'se', 'p10', 'p50', 'p90'] as const)
      expectNear(minutes![of]!, booked[week]!.minutes![of]!, 1e-9, `week ${week} ${of}`);
  });
  const sum = (all: readonly { readonly minutes?: { readonly mean: number } }[]): number =>
    all.reduce((total, { minutes }) => total + minutes!.mean, 0);
  expectNear(sum(visits), sum(weeks), 1e-9);
  // There is luck in it.
  expect(weeks.some(({ minutes }) => minutes!.p90 > minutes!.p10)).toBe(true);
});

test('of one future there is no standard error', async () => {
  const { visits } = await list(LUCKY, [], { days: 7, futures: 1 });
  expect(visits[0]!.minutes).toMatchObject({ se: null });
});

test('a scenario that tells nothing of work has no such key', async () => {
  const { physical, ...bare } = plan();
  for (const one of [bare, { ...bare, physical: { ...physical!, work: null } }]) {
    const result = await list(one, [], { days: 7 });
    expect(result).not.toHaveProperty('assumes');
    for (const part of [...result.visits, ...result.weeks]) expect(part).not.toHaveProperty('minutes');
  }
});
