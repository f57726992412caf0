/** The work list of lines so small that a reader can do the work on paper. */

import { describe, expect, test } from 'vitest';
import { isoOfDay } from '../../../sim/models/dates.js';
import type { Plan } from '../../../sim/models/plan.js';
import { lookAhead } from '../../../sim/season/ahead/ahead.js';
import { type Chore, type ChoresResult, listChores, weeksToList } from '../../../sim/season/ahead/chores.js';
import type { Forecast } from '../../../sim/season/ahead/forecast.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';
import { simulatedLog } from '../../support/simulated-log.js';

/** Tray of 6 cells, 4 d; 4 wide holes, 10 d and a day of cleaning; 2 seeds every 7 days; visits on Mon, Wed, Fri. */
function plan(rest: Partial<Plan> = {}): Plan {
  return line(
    [stage('tray', 6), stage('wide', 4, 1)],
    [crop([grow(time(4)), grow(time(10))], every(7, 70, 2))],
    { weeks: 10, visits: visitDays(10, [1, 0, 1, 0, 1, 0, 0]), ...rest },
  );
}

async function list(
  one: Plan,
  rows: readonly LogRow[],
  { today = null as string | null, days = 14, futures = 3 } = {},
): Promise<ChoresResult> {
  const reading = await listChores(one, rows, { today, days, futures });
  if (reading === null || !reading.ok) throw new Error(JSON.stringify(reading));
  return reading.value;
}

/** `move 2 tray>wide (B1 2)`, for lines without chance. */
function told({ action, stage: where, from, count, batches }: Chore): string {
  expect(count.p10).toBe(count.p90);
  const of = batches.map(({ batch, count: part }) => `${batch} ${part.mean}`).join(', ');
  return `${action} ${count.mean} ${from === null ? '' : `${from}>`}${where}${of === '' ? '' : ` (${of})`}`;
}

function byDate({ visits }: ChoresResult): Record<string, string[]> {
  return Object.fromEntries(visits.map(({ date, chores }) => [date, chores.map(told)]));
}

describe('without a log', () => {
  test('the list is the plan, from an empty line on the first day', async () => {
    // Sown on Mon 4 and Mon 11 Jan. Moved after 4 days: Fri 8 and Fri 15.
    expect(byDate(await list(plan(), []))).toEqual({
      '2027-01-04': ['sow 2 tray (B1 2)'],
      '2027-01-06': [],
      '2027-01-08': ['move 2 tray>wide (B1 2)'],
      '2027-01-11': ['sow 2 tray (B2 2)'],
      '2027-01-13': [],
      '2027-01-15': ['move 2 tray>wide (B2 2)'],
    });
  });

  test('its dates run over so many days, and its revision is that of a beginning', async () => {
    const result = await list(plan(), [], { days: 5 });
    expect(result).toMatchObject({ from: '2027-01-04', to: '2027-01-08', last_visit: null, revision: 0 });
    expect(result.visits.map(({ date }) => date)).toEqual(['2027-01-04', '2027-01-06', '2027-01-08']);
  });
});

describe('what is taken to be so', () => {
  test('is told as ahead tells it: visits that were not made, plants that stand for too long', async () => {
    // B1 was ready on Fri 8 Jan, and still stands on Mon 11; then nobody writes anything, and sowings were due on 18 and 25.
    const rows = simulatedLog(plan(), 1, 0, { until: 8 }).filter(({ action }) => action === 'sow');
    const today = '2027-01-28';
    const { missed, overdue, last_visit } = await list(plan(), rows, { today });
    expect(last_visit).toBe('2027-01-11');
    expect(overdue).toEqual([{ batch: 'B1', stage: 'tray', plants: 2, gone: 0 }]);
    expect(missed).toEqual(['13', '15', '18', '20', '22', '25', '27'].map((day) => `2027-01-${day}`));
    const ahead = await lookAhead(plan(), rows, { today, weeks: 1, futures: 3 });
    if (ahead === null || !ahead.ok) throw new Error('no answer');
    expect(ahead.value).toMatchObject({ missed, overdue, last_visit });
  });
});

describe('with a log', () => {
  test('the list goes on from what stands, in the order of a visit', async () => {
    // B1 wide from 8 Jan, ready on Mon 18; B2 from 15, ready on 25; B3 is sown on 18, moved on 22, as there are holes.
    const rows = simulatedLog(plan(), 1, 0, { until: 12 });
    expect(byDate(await list(plan(), rows, { today: '2027-01-16', days: 10 }))).toEqual({
      '2027-01-18': ['pick 2 wide (B1 2)', 'sow 2 tray (B3 2)', 'clean 2 wide'],
      '2027-01-20': [],
      '2027-01-22': ['move 2 tray>wide (B3 2)'],
      '2027-01-25': ['pick 2 wide (B2 2)', 'sow 2 tray (B4 2)', 'clean 2 wide'],
    });
  });

  test('what is dead or ready for too long is to be cleared first', async () => {
    // Two holes only: the third seedling of B1 waits from day 4; it keeps 6 d, so on day 11 (Fri 15 Jan) it is overgrown.
    const tight = plan({
      stages: [stage('tray', 9), stage('wide', 2)],
      crops: [crop([grow(time(4), { keeps: 6 }), grow(time(10))], every(7, 70, 3))],
    });
    const rows = simulatedLog(tight, 1, 0, { until: 10 });
    const lists = byDate(await list(tight, rows, { today: '2027-01-14', days: 5 }));
    // Both holes are taken until day 14: B2 (sown on day 7) is ready on 11 and stays.
    expect(lists['2027-01-15']).toEqual(['lose 1 tray (B1 1)']);
    expect(lists['2027-01-18']).toEqual([
      'pick 2 wide (B1 2)',
      'move 2 tray>wide (B2 2)',
      'sow 3 tray (B3 3)',
    ]);
  });

  test('a plant of several cuts is picked again, and its hole is left after the last', async () => {
    const cut = plan({
      crops: [crop([grow(time(4)), grow(time(10))], every(70, 70, 2), { cuts: 2, regrow: grow(time(7)) })],
    });
    // Wide from 8 Jan, picked on 18 and on 25.
    const rows = simulatedLog(cut, 1, 0, { until: 8 });
    const lists = byDate(await list(cut, rows, { today: '2027-01-12', days: 14 }));
    expect(lists['2027-01-18']).toEqual(['pick 2 wide (B1 2)']);
    expect(lists['2027-01-25']).toEqual(['pick 2 wide (B1 2)', 'clean 2 wide']);
  });

  test('a new batch gets the number after the highest of the log; several sowings of a day each their own', async () => {
    const two = plan({
      crops: [
        crop([grow(time(4)), grow(time(10))], every(7, 70, 2)),
        crop([grow(time(4)), grow(time(10))], every(7, 70, 1), { name: 'cress' }),
      ],
    });
    const rows = simulatedLog(two, 1, 0, { until: 5 }).map((row) =>
      row.batch === 'B2' ? { ...row, batch: 'B41' } : row,
    );
    const { visits } = await list(two, rows, { today: '2027-01-09', days: 4 });
    const sowings = visits[0]!.chores.find(({ action }) => action === 'sow')!;
    expect(sowings.count.mean).toBe(3);
    expect(sowings.batches.map(({ batch, crop: name, count }) => `${batch} ${name} ${count.mean}`)).toEqual([
      'B42 leaf 2',
      'B43 cress 1',
    ]);
  });

  test('each row and each day make a later revision', async () => {
    const rows = simulatedLog(plan(), 1, 0, { until: 12 });
    const first = await list(plan(), rows.slice(0, 1), { today: '2027-01-10', days: 1 });
    const more = await list(plan(), rows.slice(0, 2), { today: '2027-01-10', days: 1 });
    const later = await list(plan(), rows.slice(0, 2), { today: '2027-01-11', days: 1 });
    expect(more.revision).toBeGreaterThan(first.revision);
    expect(later.revision).toBeGreaterThan(more.revision);
    expect([more.id, later.id]).toEqual([first.id, first.id]);
    expect((await list(plan({ title: 'another line' }), [], { days: 1 })).id).not.toBe(first.id);
  });
});

describe('numbers of a line with chance', () => {
  test('are means over the futures with their quantiles: of 5 seeds each sprouts with 1/2', async () => {
    const half = plan({
      crops: [crop([grow(time(4)), grow(time(10))], every(70, 70, 5), { germination: 0.5 })],
    });
    const { visits } = await list(half, [], { days: 7, futures: 2000 });
    const [lose, move] = visits[2]!.chores;
    expect([lose!.action, move!.action]).toEqual(['lose', 'move']);
    // Binomial(5, 1/2), variance 5/4; 4 standard errors of the mean of 2000.
    expect(Math.abs(lose!.count.mean - 2.5)).toBeLessThan((4 * Math.sqrt(1.25)) / Math.sqrt(2000));
    // P(X <= 0) = 1/32, P(X <= 1) = 6/32; P(X <= 3) = 26/32, P(X <= 4) = 31/32: all many standard errors from 10 and 90 %.
    expect([lose!.count.p10, lose!.count.p90]).toEqual([1, 4]);
    // Holes that only some leave are told apart: a batch of its own has the same number.
    expect(lose!.batches[0]!.count).toEqual(lose!.count satisfies Forecast);
  });

  test('of which hardly any is expected are left out', async () => {
    const sure = plan({
      crops: [crop([grow(time(4)), grow(time(10))], every(70, 70, 2), { germination: 0.999 })],
    });
    const { visits } = await list(sure, [], { days: 7, futures: 500 });
    expect(visits[2]!.chores.map(({ action }) => action)).toEqual(['move']);
  });
});

describe('limits', () => {
  test('the plan must reach to the last day', async () => {
    expect(weeksToList(5, 14)).toBe(3);
    await expect(list(plan({ weeks: 2 }), [], { days: 15 })).rejects.toThrow('the plan must have 3 weeks');
    await expect(list(plan(), [], { days: 0 })).rejects.toThrow(RangeError);
  });

  test('rows that do not fit are faults', async () => {
    const rows = simulatedLog(plan(), 1, 0, { until: 12 });
    const reading = await listChores(plan({ start: '2027-01-06' }), rows, {
      today: null,
      days: 7,
      futures: 1,
    });
    expect(reading).toMatchObject({ ok: false });
  });

  test('no visit, no list', async () => {
    const { visits } = await list(plan(), [], { days: 1, today: isoOfDay('2027-01-04', 1) });
    expect(visits).toEqual([]);
  });
});
