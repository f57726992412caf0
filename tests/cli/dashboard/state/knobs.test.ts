import { describe, expect, test } from 'vitest';
import { type Knob, knobsOf } from '../../../../cli/dashboard/state/knobs.js';
import type { Scenario } from '../../../../sim/scenario/schema.js';
import { CELLAR, example, KITCHEN, read } from '../given.js';

function knob(scenario: Scenario, label: string): Knob {
  const found = knobsOf(scenario).find((one) => one.label === label);
  if (found === undefined) throw new Error(label);
  return found;
}

/** Values on the way, turning so many times one way. */
function values(scenario: Scenario, label: string, by: 1 | -1, times: number): string[] {
  const { turn, value } = knob(scenario, label);
  let now = scenario;
  return Array.from({ length: times }, () => {
    now = turn(now, by);
    return value(now);
  });
}

describe('what can be turned', () => {
  test('cadence and seeds of each crop, channels of each stage, visits, and want where there is one', () => {
    expect(knobsOf(CELLAR).map(({ label, value }) => `${label}: ${value(CELLAR)}`)).toEqual([
      'sow: every 3 d',
      'seeds: 10',
      'germination channels: 1',
      'nursery channels: 2',
      'finishing channels: 8',
      'visits: mon thu sat',
    ]);
    expect(knobsOf(KITCHEN).map(({ label, value }) => `${label}: ${value(KITCHEN)}`)).toEqual([
      'butterhead sow: tue fri',
      'butterhead seeds: 18',
      'basil sow: mon',
      'basil seeds: 6',
      'tray channels: 2',
      'nursery channels: 4',
      'finishing channels: 14',
      'visits: daily',
      'want: 22 on tue fri',
    ]);
  });

  test('the scenario that is turned stays as it is', () => {
    const before = JSON.stringify(KITCHEN);
    for (const { turn, toggle } of knobsOf(KITCHEN)) {
      turn(KITCHEN, 1);
      turn(KITCHEN, -1);
      toggle?.(KITCHEN, 3);
    }
    expect(JSON.stringify(KITCHEN)).toBe(before);
  });
});

describe('cadence', () => {
  test('goes from stop to stop, and beyond the longest lies the refill', () => {
    expect(values(CELLAR, 'sow', 1, 9)).toEqual([
      'every 4 d',
      'every 5 d',
      'every 6 d',
      'every 7 d',
      'every 10 d',
      'every 14 d',
      'every 21 d',
      'every 28 d',
      'refill',
    ]);
    expect(values(CELLAR, 'sow', -1, 3)).toEqual(['every 2 d', 'every 1 d', 'every 1 d']);
  });

  test('back from the refill, seeds are sown again', () => {
    const club = example('school-club');
    expect(knob(club, 'seeds').value(club)).toBe('as needed');
    const back = knob(club, 'sow').turn(club, -1);
    expect(knob(club, 'sow').value(back)).toBe('every 28 d');
    expect(knob(club, 'seeds').value(back)).toBe('10');
  });

  test('weekdays are left for the nearest cadence on that side', () => {
    // Twice a week is every 3.5 days.
    expect(values(KITCHEN, 'butterhead sow', 1, 1)).toEqual(['every 4 d']);
    expect(values(KITCHEN, 'butterhead sow', -1, 1)).toEqual(['every 3 d']);
  });

  test('a weekday put in makes it a sowing on weekdays, with the same seeds', () => {
    const monday = knob(CELLAR, 'sow').toggle!(CELLAR, 0);
    expect(monday.crops[0]!.sow).toEqual({ on: ['mon'], seeds: 10 });
    const both = knob(CELLAR, 'sow').toggle!(monday, 4);
    expect(both.crops[0]!.sow).toEqual({ on: ['mon', 'fri'], seeds: 10 });
    expect(knob(CELLAR, 'sow').toggle!(both, 0).crops[0]!.sow).toEqual({ on: ['fri'], seeds: 10 });
    expect(knob(CELLAR, 'sow').toggle!(monday, 0)).toBe(monday);
  });
});

describe('numbers', () => {
  test('small ones go one by one and end at 1', () => {
    expect(values(CELLAR, 'nursery channels', -1, 2)).toEqual(['1', '1']);
    expect(values(CELLAR, 'finishing channels', 1, 2)).toEqual(['9', '10']);
  });

  test('large ones go in larger steps', () => {
    const hall = example('hall-150000');
    // A twentieth of 3000 is 150: steps of 100. One of 1600 is 80: steps of 10.
    expect(values(hall, 'seeds', 1, 1)).toEqual(['3100']);
    expect(values(hall, 'finishing channels', -1, 1)).toEqual(['1590']);
  });

  test('a step back undoes a step on, also where the steps become larger', () => {
    const { turn } = knob(CELLAR, 'seeds');
    let now = CELLAR;
    for (let step = 0; step < 400; step++) {
      const next = turn(now, 1);
      expect(turn(next, -1)).toEqual(now);
      now = next;
    }
    // One by one up to 200, by tens up to 2000, by hundreds from there on: 190 + 180 + 30 steps.
    expect(knob(CELLAR, 'seeds').value(now)).toBe('5000');
  });

  test('at the end of its range a knob gives the very scenario it was given', () => {
    const most = read(
      JSON.stringify({
        ...CELLAR,
        stages: CELLAR.stages.map((s) => ({ ...s, channels: 100_000, holes: 1 })),
      }),
    );
    expect(knob(most, 'finishing channels').turn(most, 1)).toBe(most);
    const rare = { ...CELLAR, visits: ['mon' as const] };
    expect(knob(rare, 'visits').turn(rare, -1)).toBe(rare);
    expect(knob(KITCHEN, 'visits').turn(KITCHEN, 1)).toBe(KITCHEN);
  });
});

describe('visits and want', () => {
  test('visits go from once a week to daily', () => {
    expect(values(CELLAR, 'visits', 1, 3)).toEqual(['mon tue thu sat', 'mon tue wed thu fri', 'daily']);
    expect(values(CELLAR, 'visits', -1, 2)).toEqual(['mon thu', 'mon']);
  });

  test('daily without one day is the other six; all seven are daily', () => {
    const six = knob(KITCHEN, 'visits').toggle!(KITCHEN, 6);
    expect(six.visits).toEqual(['mon', 'tue', 'wed', 'thu', 'fri', 'sat']);
    expect(knob(KITCHEN, 'visits').toggle!(six, 6).visits).toBe('daily');
  });

  test('want changes in heads and in days', () => {
    expect(values(KITCHEN, 'want', 1, 1)).toEqual(['23 on tue fri']);
    expect(knob(KITCHEN, 'want').toggle!(KITCHEN, 0).want).toEqual({ heads: 22, on: ['mon', 'tue', 'fri'] });
  });
});
