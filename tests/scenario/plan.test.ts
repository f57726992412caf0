import { describe, expect, test } from 'vitest';
import type { Plan } from '../../sim/models/plan.js';
import { cellarWith, readWell } from './cellar.js';

const CADENCE = '{every: 3, seeds: 10}';
const GERMINATION = '{days: 7, spread: 0.10, keeps: 4}';

function planWith(...edits: [from: string, to: string][]): Plan {
  return readWell(cellarWith(...edits)).value.plan;
}

function dueDays(sow: string, weeks = 26): readonly number[] {
  const { sowing } = planWith([CADENCE, sow], ['weeks: 26', `weeks: ${weeks}`]).crops[0]!;
  if (sowing.kind !== 'due') throw new Error('not due');
  return sowing.days;
}

function visitDays(visits: string, ...edits: [from: string, to: string][]): readonly number[] {
  const plan = planWith(['[mon, thu, sat]', visits], ['weeks: 26', 'weeks: 2'], ...edits);
  if (plan.visits.kind !== 'days') throw new Error('always');
  return plan.visits.days;
}

function time(growing: string) {
  return planWith([GERMINATION, growing]).crops[0]!.stages[0]!.time;
}

describe('sowings', () => {
  test('every K days fall due on 0, K, 2K, … before the end of the season', () => {
    expect(dueDays('{every: 7, seeds: 1}', 3)).toEqual([0, 7, 14]);
    expect(dueDays('{every: 2.5, seeds: 1}', 1)).toEqual([0, 2.5, 5]);
  });

  test('every 0.1 days is not off by the rounding of a sum', () => {
    expect(dueDays('{every: 0.1, seeds: 1}', 1)).toHaveLength(70);
    expect(dueDays('{every: 0.1, seeds: 1}', 1)[30]).toBe(3);
  });

  test('on weekdays fall due on those days', () => {
    expect(dueDays('{on: [thu, mon], seeds: 1}', 2)).toEqual([0, 3, 7, 10]);
  });

  test('that were missed are made up for, unless the scenario drops them', () => {
    const missedOf = (sow: string) => planWith([CADENCE, sow]).crops[0]!.sowing;
    expect(missedOf('{every: 3, seeds: 1}')).not.toHaveProperty('missed');
    for (const cadence of ['every: 3', 'on: [mon]', 'dates: [2027-01-04]']) {
      expect(missedOf(`{${cadence}, seeds: 1, missed: dropped}`)).toMatchObject({ missed: 'dropped' });
    }
  });

  test('on dates fall due in the order of the calendar, those outside the season left out', () => {
    expect(dueDays('{dates: [2027-01-10, 2027-01-04, 2027-01-03, 2027-01-11], seeds: 1}', 1)).toEqual([0, 6]);
  });

  test('to refill have no days', () => {
    expect(planWith([CADENCE, '{refill: true}']).crops[0]?.sowing).toEqual({ kind: 'refill' });
  });
});

describe('visits', () => {
  test('daily are on every day of the season', () => {
    expect(visitDays('daily', ['away: [{from: 2027-02-08, to: 2027-02-14}]\n', ''])).toEqual([
      0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13,
    ]);
  });

  test('leave out the first and the last date of away', () => {
    const away: [string, string] = [
      '{from: 2027-02-08, to: 2027-02-14}',
      '{from: 2027-01-06, to: 2027-01-15}',
    ];
    expect(visitDays('daily', away)).toEqual([0, 1, 12, 13]);
  });

  test('leave out a single date', () => {
    const away: [string, string] = [
      '{from: 2027-02-08, to: 2027-02-14}',
      '{from: 2027-01-04, to: 2027-01-04}',
    ];
    expect(visitDays('[mon]', away)).toEqual([7]);
  });

  test('fall on the right weekday when the season begins in the middle of a week', () => {
    // 2027-01-07 is a Thursday: the next Monday is day 4.
    expect(visitDays('[mon]', ['start: 2027-01-04', 'start: 2027-01-07'])).toEqual([4, 11]);
  });

  test('always have no days', () => {
    const plan = planWith(
      ['[mon, thu, sat]', 'always'],
      ['away: [{from: 2027-02-08, to: 2027-02-14}]\n', ''],
    );
    expect(plan.visits).toEqual({ kind: 'always' });
  });

  test('cross 29 February and the change to summer time without a slip', () => {
    const edits: [string, string][] = [
      ['2027-01-04', '2028-02-28'],
      ['{from: 2027-02-08, to: 2027-02-14}', '{from: 2028-02-29, to: 2028-04-02}'],
      ['weeks: 26', 'weeks: 6'],
    ];
    // 2028-02-28 is a Monday; 29 February is day 1; 2 April is day 34.
    const plan = planWith(...edits);
    const away = {
      days: Array.from({ length: 34 }, (_, i) => i + 1),
      visits: [3, 5, 7, 10, 12, 14, 17, 19, 21, 24, 26, 28, 31, 33],
    };
    expect(plan.visits).toEqual({ kind: 'days', days: [0, 35, 38, 40], away });
  });
});

describe('growth time', () => {
  test('exponential has a spread of 1, written or not', () => {
    const exponential = { shape: 'exponential', days: 7, spread: 1, times: [] };
    expect(time('{days: 7, shape: exponential}')).toEqual(exponential);
    expect(time('{days: 7, spread: 1, shape: exponential}')).toEqual(exponential);
  });

  test('fixed has a spread of 0, written or not', () => {
    const fixed = { shape: 'fixed', days: 7, spread: 0, times: [] };
    expect(time('{days: 7, shape: fixed}')).toEqual(fixed);
    expect(time('{days: 7, spread: 0, shape: fixed}')).toEqual(fixed);
  });

  test('observed has the mean and the population spread of its list', () => {
    // Mean 5, deviations 3 1 1 1 0 0 2 4: variance 32 / 8 = 4, standard deviation 2.
    const list = '[2, 4, 4, 4, 5, 5, 7, 9]';
    const expected = { shape: 'observed', days: 5, spread: 0.4, times: [2, 4, 4, 4, 5, 5, 7, 9] };
    expect(time(`{shape: observed, observed: ${list}}`)).toEqual(expected);
  });

  test('observed need not be named where the list is given', () => {
    expect(time('{observed: [6, 8]}')).toEqual(time('{shape: observed, observed: [6, 8]}'));
  });

  test('of any shape may have a spread of 0', () => {
    for (const shape of ['lognormal', 'gamma', 'weibull', 'triangular']) {
      expect(time(`{days: 7, spread: 0, shape: ${shape}}`)).toEqual({ shape, days: 7, spread: 0, times: [] });
    }
  });
});

test('a regrown plant keeps as long as in the last stage', () => {
  const plan = planWith(
    ['cuts: 1 ', 'cuts: 3\n    regrow: {days: 12, spread: 0.15, loss: 0.01} '],
    ['loss: 0.02, keeps: 7', 'keeps: 5'],
  );
  expect(plan.crops[0]?.regrow).toEqual({
    time: { shape: 'lognormal', days: 12, spread: 0.15, times: [] },
    loss: 0.01,
    keeps: 5,
  });
});

test('growth stands in the order of the stages of the line, whatever the order in the crop', () => {
  const nursery = '      nursery: {days: 14, spread: 0.12, loss: 0.03, keeps: 7}\n';
  const plan = planWith([nursery, ''], ['want:', `${nursery}want:`]);
  expect(plan.crops[0]?.stages.map((stage) => stage.time.days)).toEqual([7, 14, 21]);
});
