/** Other light through the built program: the same digits as a file that somebody edits, in every form, in parts, and refused before a season. */

import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { edited } from '../scenario/cellar.js';
import { THIRD } from '../scenario/third-course.js';
import { ownFolder } from '../support/folder.js';
import { evensow } from './program.js';

const folder = ownFolder();
const FILE = join(folder, 'line.yaml');
const EDITED = join(folder, 'edited.yaml');
const SEASONS = ['-n', '6'];

interface Told {
  readonly plans: readonly {
    readonly name: string;
    readonly figures: Record<string, { mean: number; low: number; high: number; difference: unknown } | null>;
    readonly limits: unknown;
  }[];
  readonly notes: readonly string[];
}

async function said(...args: string[]): Promise<string> {
  const { code, out, err } = await evensow(args);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  return out;
}

const compared = async (...args: string[]): Promise<Told> =>
  JSON.parse(await said('compare', ...args, ...SEASONS, '--json'));

/** All that is told of a plan but its name and what it is held against. */
function own({ plans }: Told, name: string) {
  const { figures, limits } = plans.find((plan) => plan.name === name)!;
  const values = Object.entries(figures).map(([of, figure]) => [
    of,
    figure && { ...figure, difference: null },
  ]);
  return { limits, figures: Object.fromEntries(values) };
}

/** With luck, so that intervals are there. */
const LUCKY = edited(THIRD, [
  ['finishing: {days: 20, shape: fixed', 'finishing: {days: 20, spread: 0.1, loss: 0.02'],
  ['nursery: {days: 13, shape: fixed', 'nursery: {days: 13, spread: 0.1'],
  ['days_at: {ppfd: 260, hours: 16}', 'days_at: {ppfd: 240}'],
]);

beforeAll(async () => {
  await writeFile(FILE, LUCKY);
  await writeFile(
    EDITED,
    edited(LUCKY, [
      ['ppfd: 150, hours: 16, watts: 10', 'ppfd: 180, hours: 16, watts: 12'],
      ['ppfd: 260, hours: 16', 'ppfd: 260, hours: 17'],
    ]),
  );
});

describe('a plan with other light', () => {
  test('that is the light of the file has the figures of the file, and no difference to it', async () => {
    const told = await compared(FILE, '--hours', 'finishing=16');
    expect(told.plans.map(({ name }) => name)).toEqual(['as it is', 'finishing 16 h']);
    expect(own(told, 'finishing 16 h')).toEqual(own(told, 'as it is'));
    for (const figure of Object.values(told.plans[1]!.figures)) {
      if (figure !== null)
        expect(figure.difference).toMatchObject({ mean: 0, low: 0, high: 0, verdict: 'none' });
    }
    const run = JSON.parse(await said('run', FILE, ...SEASONS, '--json'));
    for (const name of ['heads_a_week', 'kwh_a_head', 'cost_a_head']) {
      const { mean, low, high } = told.plans[1]!.figures[name]!;
      expect({ mean, low, high }).toEqual(run.figures[name]);
    }
  });

  test('has the digits of a file that somebody edits', async () => {
    const told = await compared(FILE, '--ppfd', 'seedlings=180', '--hours', 'finishing=17');
    const byHand = await compared(EDITED, '--hours', 'finishing=17');
    expect(own(told, 'seedlings 180 µmol, finishing 17 h')).toEqual(own(byHand, 'as it is'));
    expect(own(told, 'as it is')).not.toEqual(own(byHand, 'as it is'));
  });
});

describe('the plans', () => {
  const ALL = [
    '--every',
    '5,7',
    '--ppfd',
    'finishing=200,260',
    '--hours',
    'nursery=15',
    '--hours',
    'finishing=14,16',
  ];

  test('are all combinations, the file as it is first; in text, CSV and JSON with what is to be known of them', async () => {
    const { plans, notes } = await compared(FILE, ...ALL);
    const light = ['200 µmol, 14 h', '200 µmol, 16 h', '260 µmol, 14 h', '260 µmol, 16 h'];
    const name = (every: number, of: string) => `every ${every} d, finishing ${of}, nursery 15 h`;
    expect(plans.map((plan) => plan.name)).toEqual([
      'as it is',
      ...[5, 7].flatMap((every) => light.map((of) => name(every, of))),
    ]);
    expect(notes[0]).toMatch(/^Days were not changed for hours in finishing, only what the lamps draw: /);
    const csv = await said('compare', FILE, ...ALL, ...SEASONS, '--csv');
    expect(csv).toContain(`,"notes: ${notes[0]}",`);
    const text = await said('compare', FILE, ...ALL, ...SEASONS, '--by', 'cost_a_head');
    expect(text.replace(/\s+/g, ' ')).toContain(notes[0]!);
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });

  test('are the same from parts', async () => {
    const args = ['compare', FILE, '--ppfd', '200', '--hours', 'finishing=14', ...SEASONS];
    const parts = [1, 2].map((k) => join(folder, `part-${k}.json`));
    for (const [i, part] of parts.entries()) await said(...args, '--shard', `${i + 1}/2`, '--out', part);
    expect(await said('merge', ...parts, '--json')).toBe(await said(...args, '--json'));
  });

  test('without other light are what they were: nothing stands beside them', async () => {
    const told = await compared(FILE, '--every', '5,7');
    expect(told.plans.map(({ name }) => name)).toEqual(['every 5 d', 'every 7 d']);
    expect(told).not.toHaveProperty('notes');
  });
});

describe('what is wrong with the light', () => {
  test.each<[string[], RegExp]>([
    [
      ['--hours', '=16'],
      /^evensow: --hours must not be "=16": the name of the stage is missing in front of =/,
    ],
    [
      ['--hours', '16,30'],
      /^evensow: --hours must not hold "30"\. It must be numbers from 0\.1 to 24 \(hours a day\)/,
    ],
    [
      ['--ppfd', 'nursery=0'],
      /^evensow: --ppfd must not hold "0"\. It must be numbers from 1 to 5000 \(umol m-2 s-1\).* Example: --ppfd nursery=200,260/,
    ],
    [['--ppfd', '200', '--ppfd', '260'], /^evensow: --ppfd must not be given twice for all lit stages\./],
    [['--ppfd', 'nursery=200', '--ppfd', 'nursery=260'], /^evensow: --ppfd must not name nursery twice\./],
    [
      ['--ppfd', '200', '--ppfd', 'nursery=260'],
      /^evensow: --ppfd must not be given for all lit stages and for single ones\./,
    ],
    [
      ['--hours', 'nusery=16'],
      /^evensow: There is no stage nusery\. The stages are seedlings, nursery, finishing\./,
    ],
    [
      ['--ppfd', 'finishing=200,40', '--hours', 'finishing=14'],
      /^evensow: With finishing 40 µmol, 14 h: stages\[2\]\.ppfd must not be 40\. It must be ppfd from 50 to 750/,
    ],
  ])('%j is told before any season', async (args, fault) => {
    const { code, out, err } = await evensow(['compare', FILE, ...args]);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(fault);
  });

  test('of several files, with the name of the file', async () => {
    const dark = join(folder, 'dark.yaml');
    await writeFile(dark, THIRD.replaceAll('seedlings', 'shelf'));
    const { code, err } = await evensow(['compare', FILE, dark, '--hours', 'seedlings=16']);
    expect(code).toBe(2);
    expect(err).toBe(
      `evensow: ${dark}: There is no stage seedlings. The stages are shelf, nursery, finishing.\n`,
    );
  });
});
