import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Knob, knobsOf } from '../../../../cli/dashboard/state/knobs.js';
import { scenarioText } from '../../../../cli/dashboard/terminal/save.js';
import { readScenario } from '../../../../sim/scenario/read.js';
import type { Scenario } from '../../../../sim/scenario/schema.js';
import { RACK } from '../../../scenario/physical/rack.js';
import { CELLAR, example, KITCHEN, read } from '../given.js';

function knob(scenario: Scenario, label: string): Knob {
  const found = knobsOf(scenario).find((one) => one.label === label);
  if (found === undefined) throw new Error(label);
  return found;
}

function typed(scenario: Scenario, label: string, text: string): Scenario {
  const changed = knob(scenario, label).typed(scenario, text);
  if (!changed.ok) throw new Error(changed.faults.join(' '));
  return changed.value;
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

test('metered lamps hang over every channel alike, turned or typed, there and back again', () => {
  const rack = read(RACK);
  const watts = (scenario: Scenario) => scenario.stages[0]!.watts;
  const tray = knob(rack, 'tray channels');
  const three = tray.turn(tray.turn(rack, 1), 1);
  expect(watts(three)).toBe(36);
  expect(watts(typed(rack, 'tray channels', '3'))).toBe(36);
  expect(tray.turn(tray.turn(three, -1), -1)).toEqual(rack);
  expect(scenarioText(RACK, rack, three)).toEqual({
    ok: true,
    value: RACK.replace('{name: tray, channels: 1', '{name: tray, channels: 3').replace(
      'watts: 12',
      'watts: 36',
    ),
  });
});

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
      'want: 22',
      'wanted on: tue fri',
    ]);
  });

  test('the scenario that is turned stays as it is', () => {
    const before = JSON.stringify(KITCHEN);
    for (const { turn, toggle } of knobsOf(KITCHEN)) {
      turn(KITCHEN, 1);
      turn(KITCHEN, -1);
      toggle(KITCHEN, 3);
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

  test('of a sowing on weekdays each can be put in and taken out but the last; one of so many days has none', () => {
    const { toggle } = knob(CELLAR, 'sow');
    expect(toggle(CELLAR, 0)).toBeNull();
    const monday = typed(CELLAR, 'sow', 'mon');
    const both = toggle(monday, 4)!;
    expect(both.crops[0]!.sow).toEqual({ on: ['mon', 'fri'], seeds: 10 });
    expect(toggle(both, 0)!.crops[0]!.sow).toEqual({ on: ['fri'], seeds: 10 });
    expect(toggle(monday, 0)).toBe(monday);
  });

  test('whatever it becomes, seeds and what is done with missed sowings stay', () => {
    const crops = [{ ...CELLAR.crops[0]!, sow: { every: 3, seeds: 7, missed: 'dropped' as const } }];
    const line = { ...CELLAR, crops };
    expect(knob(line, 'sow').turn(line, 1).crops[0]!.sow).toEqual({ every: 4, seeds: 7, missed: 'dropped' });
    expect(typed(line, 'sow', 'mon').crops[0]!.sow).toEqual({ on: ['mon'], seeds: 7, missed: 'dropped' });
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
    const six = knob(KITCHEN, 'visits').toggle(KITCHEN, 6)!;
    expect(six.visits).toEqual(['mon', 'tue', 'wed', 'thu', 'fri', 'sat']);
    expect(knob(KITCHEN, 'visits').toggle(six, 6)!.visits).toBe('daily');
  });

  test('want changes in heads and in days', () => {
    expect(values(KITCHEN, 'want', 1, 1)).toEqual(['23']);
    expect(values(KITCHEN, 'wanted on', 1, 2)).toEqual(['mon wed fri', 'mon tue thu sat']);
    expect(values(KITCHEN, 'wanted on', -1, 2)).toEqual(['mon', 'mon']);
    expect(knob(KITCHEN, 'wanted on').toggle(KITCHEN, 0)!.want).toEqual({
      heads: 22,
      on: ['mon', 'tue', 'fri'],
    });
  });
});

describe('what is typed', () => {
  /** [knob, what is typed, what it becomes in the scenario] */
  const sow = (scenario: Scenario): unknown => scenario.crops[0]!.sow;
  test.each<[string, string, unknown, (scenario: Scenario) => unknown]>([
    ['butterhead seeds', '24', { on: ['tue', 'fri'], seeds: 24 }, sow],
    ['butterhead sow', '3', { every: 3, seeds: 18 }, sow],
    ['butterhead sow', '2.5', { every: 2.5, seeds: 18 }, sow],
    ['butterhead sow', 'every 4', { every: 4, seeds: 18 }, sow],
    ['butterhead sow', 'every 4 d', { every: 4, seeds: 18 }, sow],
    ['butterhead sow', 'every: 4', { every: 4, seeds: 18 }, sow],
    ['butterhead sow', 'thu mon', { on: ['mon', 'thu'], seeds: 18 }, sow],
    ['butterhead sow', 'on mon, thu', { on: ['mon', 'thu'], seeds: 18 }, sow],
    ['butterhead sow', '[wed]', { on: ['wed'], seeds: 18 }, sow],
    ['butterhead sow', 'sun', { on: ['sun'], seeds: 18 }, sow],
    ['butterhead sow', 'refill', { refill: true }, sow],
    ['butterhead sow', '2027-01-04 2027-02-01', { dates: ['2027-01-04', '2027-02-01'], seeds: 18 }, sow],
    ['nursery channels', '7', 7, ({ stages }) => stages[1]!.channels],
    ['visits', 'always', 'always', ({ visits }) => visits],
    ['visits', 'daily', 'daily', ({ visits }) => visits],
    ['visits', 'sat mon thu', ['mon', 'thu', 'sat'], ({ visits }) => visits],
    ['visits', 'mon tue wed thu fri sat sun', 'daily', ({ visits }) => visits],
    ['want', '30', 30, ({ want }) => want!.heads],
    ['wanted on', 'mon', ['mon'], ({ want }) => want!.on],
  ])('%s: %s', (label, text, expected, of) => {
    const free = { ...KITCHEN, away: [] };
    const changed = typed(free, label, text);
    expect(of(changed)).toEqual(expected);
    expect(readScenario(JSON.stringify(changed))).toMatchObject({ ok: true });
  });

  test.each([
    ['seeds', 'ten', 'found "ten"; expected a whole number from 1 to 1000000 (seeds). Example: seeds: 10'],
    ['seeds', '0', 'found 0; expected a whole number from 1 to 1000000 (seeds). Example: seeds: 10'],
    [
      'seeds',
      '1,5',
      'found "1,5"; expected a whole number from 1 to 1000000 (seeds). Write a point for the comma: 1.5.',
    ],
    ['sow', '0', 'found 0; expected a number from 0.01 to 3650 (days). Example: every: 3'],
    [
      'sow',
      '3 x',
      'found "3 x"; expected a number from 0.01 to 3650 (days). Write the number without its unit: 3.',
    ],
    [
      'sow',
      'mon thx',
      'found "thx"; expected a weekday: mon, tue, wed, thu, fri, sat or sun. Did you mean thu?',
    ],
    ['sow', 'mon mon', 'found "mon" a second time; expected every weekday once.'],
    ['sow', 'whenever', /^found "whenever"; expected exactly one of the keys every, on, dates/],
    ['sow', '2027-02-30', /^found "2027-02-30"; expected an existing date/],
    [
      'visits',
      'dayly',
      /^found "dayly"; expected daily, always or a list of weekdays .* Did you mean daily\?/,
    ],
    ['visits', '3', /^found 3; expected daily, always or a list of weekdays/],
    ['visits', 'always', /^found the key away with visits: always; expected no away with visits: always/],
    ['nursery channels', '[2', /^found something missing: a quote, bracket/],
    [
      'nursery channels',
      '100000',
      /^found 2400112 holes in all .*; expected at most 2000000 holes in the whole line\.$/,
    ],
  ])('%s: %s is refused in the words of the scenario', (label, text, sentence) => {
    const away = { ...CELLAR, away: [{ from: '2027-02-08', to: '2027-02-14' }] };
    const changed = knob(away, label).typed(away, text);
    expect(changed.ok).toBe(false);
    if (!changed.ok) expect(changed.faults[0]).toMatch(sentence);
  });

  test('whatever is typed gives a plan that a file could say, or a sentence; nothing is thrown', () => {
    const words = fc.constantFrom(
      '3',
      '-1',
      '1e9',
      'mon',
      'thu',
      'refill',
      'every',
      'on',
      'dates',
      '[',
      '{',
      ':',
      ',',
      '2027-01-04',
      '*a',
      '!!x',
      '"',
    );
    const text = fc.oneof(
      fc.string({ unit: 'grapheme', maxLength: 12 }),
      fc.array(words, { maxLength: 5 }).map((list) => list.join(' ')),
    );
    const scenario = fc.constantFrom(CELLAR, KITCHEN, example('school-club'));
    fc.assert(
      fc.property(scenario, fc.nat(), text, (line, n, typedText) => {
        const knobs = knobsOf(line);
        const changed = knobs[n % knobs.length]!.typed(line, typedText);
        if (changed.ok) expect(readScenario(JSON.stringify(changed.value))).toMatchObject({ ok: true });
        else expect(changed.faults[0]).toMatch(/^found .*; expected .*\./s);
      }),
      { numRuns: 400, seed: 8 },
    );
  });
});
