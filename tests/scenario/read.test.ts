import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import type { Plan } from '../../sim/models/plan.js';
import { CELLAR, cellarWith, faultLines, faultsOf, readWell } from './cellar.js';

/** 26 weeks from Monday 2027-01-04: day 0 is a Monday, so mon = 0, thu = 3, sat = 5 in every week. */
const WEEKS = Array.from({ length: 26 }, (_, week) => week);

const EXPECTED: Plan = {
  title: 'Cellar line',
  start: '2027-01-04',
  weeks: 26,
  seed: 7,
  // Away from 2027-02-08 (day 35) to 2027-02-14 (day 41): the sixth week.
  visits: {
    kind: 'days',
    days: WEEKS.filter((week) => week !== 5).flatMap((week) => [7 * week, 7 * week + 3, 7 * week + 5]),
    away: { days: [35, 36, 37, 38, 39, 40, 41], visits: [35, 38, 40] },
  },
  stages: [
    { name: 'germination', channels: 1, holesPerChannel: 40, holeAreaCm2: null, cleanDays: 0 },
    { name: 'nursery', channels: 2, holesPerChannel: 24, holeAreaCm2: 100, cleanDays: 0 },
    { name: 'finishing', channels: 8, holesPerChannel: 9, holeAreaCm2: 400, cleanDays: 1 },
  ],
  crops: [
    {
      name: 'butterhead',
      germination: 0.92,
      // 182 days: the last due day is 180.
      sowing: { kind: 'due', days: Array.from({ length: 61 }, (_, i) => 3 * i), seeds: 10 },
      cuts: 1,
      regrow: null,
      headG: 150,
      stages: [
        { time: { shape: 'lognormal', days: 7, spread: 0.1, times: [] }, loss: 0, keeps: 4 },
        { time: { shape: 'lognormal', days: 14, spread: 0.12, times: [] }, loss: 0.03, keeps: 7 },
        { time: { shape: 'gamma', days: 21, spread: 0.12, times: [] }, loss: 0.02, keeps: 7 },
      ],
    },
  ],
  want: { heads: 6, days: WEEKS.flatMap((week) => [7 * week + 1, 7 * week + 4]) },
};

describe('a correct file', () => {
  test('becomes the plan that it describes', () => {
    expect(readWell(CELLAR).value.plan).toEqual(EXPECTED);
  });

  test('becomes the same plan when it is written as JSON', () => {
    expect(readWell(JSON.stringify(parse(CELLAR))).value.plan).toEqual(EXPECTED);
  });

  test('becomes the same plan with a byte order mark and Windows line ends', () => {
    expect(readWell(`\uFEFF${CELLAR.replaceAll('\n', '\r\n')}`).value.plan).toEqual(EXPECTED);
  });

  test('may leave out all that has a default', () => {
    const { plan } = readWell(`start: 2027-01-04
weeks: 1
stages: [{name: tray, channels: 1, holes: 4}]
crops: [{name: cress, sow: {refill: true}, stages: {tray: {days: 5, spread: 0}}}]
`).value;
    expect(plan).toEqual({
      title: 'Untitled line',
      start: '2027-01-04',
      weeks: 1,
      seed: 1,
      visits: { kind: 'days', days: [0, 1, 2, 3, 4, 5, 6] },
      stages: [{ name: 'tray', channels: 1, holesPerChannel: 4, holeAreaCm2: null, cleanDays: 0 }],
      crops: [
        {
          name: 'cress',
          germination: 1,
          sowing: { kind: 'refill' },
          cuts: 1,
          regrow: null,
          headG: null,
          stages: [
            {
              time: { shape: 'lognormal', days: 5, spread: 0, times: [] },
              loss: 0,
              keeps: Number.POSITIVE_INFINITY,
            },
          ],
        },
      ],
      want: null,
    });
  });

  test('may repeat a map through an anchor and change a part of it by merging', () => {
    const text = cellarWith(
      ['nursery: {days', 'nursery: &usual {days'],
      ['{days: 21, spread: 0.12, loss: 0.02, keeps: 7, shape: gamma}', '{<<: *usual, loss: 0.5}'],
    );
    expect(readWell(text).value.plan.crops[0]?.stages[2]).toEqual({
      time: { shape: 'lognormal', days: 14, spread: 0.12, times: [] },
      loss: 0.5,
      keeps: 7,
    });
  });

  test('keeps stage names that look like numbers as they are written', () => {
    const text = cellarWith(['name: nursery', 'name: "007"'], ['nursery: {days', '007: {days']);
    expect(readWell(text).value.plan.stages[1]?.name).toBe('007');
  });
});

describe('text that is not a scenario at all', () => {
  const DEEP = 'brackets or lists nested too deep';

  test('tabs as indentation are reported with their line', () => {
    expect(faultLines('weeks: 26\nstages:\n\t- name: tray\n')).toEqual([
      '3:1  | a tab at the beginning of a line (not YAML: tabs are not allowed as indentation) | spaces for indentation | null',
    ]);
  });

  test('a quote that is never closed is reported', () => {
    expect(faultLines('title: "Cellar\n')).toEqual([
      '2:1  | something missing: a quote, bracket, comma, colon or space (not YAML: missing closing "quote) | every quote and bracket to be closed, and a colon after every key | null',
    ]);
  });

  test('a bracket that is never closed is reported', () => {
    expect(faultLines(cellarWith(['[mon, thu, sat]', '[mon, thu, sat']))[0]).toMatch(
      /^6:\d+ {2}\| a line that begins in the wrong column, or a bracket that is not closed \(not YAML: flow /,
    );
  });

  test('a second document is reported at its beginning', () => {
    expect(faultLines(`${CELLAR}---\n${CELLAR}`)).toEqual([
      '22:1  | a second document | one document in a file (no second ---) | null',
    ]);
  });

  test('an unknown tag is reported', () => {
    expect(faultLines('weeks: !!ages 3\n')[0]).toMatch(
      /^1:8 .*unresolved tag.* \| a value without a tag \(no !\) \| null$/,
    );
  });

  test('an alias without an anchor is one fault', () => {
    expect(faultLines(cellarWith(['weeks: 26', 'weeks: *long']))).toEqual([
      '3:8 weeks | the alias *long without an anchor | an anchor &long further up in the file | null',
    ]);
  });

  test('a merge of what is not a map is one fault', () => {
    expect(
      faultLines(cellarWith(['{days: 7, spread: 0.10, keeps: 4}', '{<<: 3, days: 7, spread: 0.10}'])),
    ).toEqual([
      '18:21 crops[0].stages.germination["<<"] | a merge (<<) of what has no keys (no map) | an alias of what has keys, e.g. <<: *usual | null',
    ]);
  });

  test('binary content is reported at its first odd character', () => {
    expect(faultLines('ab\ncd\0ef')).toEqual([
      '2:3  | a character that is not text (code 0) | a text file in UTF-8 | null',
    ]);
    expect(faultLines('Kr\uFFFDuter')).toEqual([
      '1:3  | bytes that are not UTF-8 | a text file in UTF-8 | null',
    ]);
  });

  test('a text of more than 1 000 000 characters is refused unread', () => {
    expect(faultLines('#'.repeat(1_000_001))).toEqual([
      '1:1  | a text of 1000001 characters | at most 1000000 characters | null',
    ]);
  });

  test.each([
    ['brackets', '['.repeat(1_000_000), '1:101'],
    ['braces', '{'.repeat(1_000_000), '1:101'],
    ['items', '- '.repeat(500_000), '1:201'],
    ['keys', '? '.repeat(500_000), '1:201'],
  ])('a million nested %s are refused and crash nothing', (_name, text, place) => {
    expect(faultLines(text)).toEqual([`${place}  | ${DEEP} | at most 100 levels | null`]);
  });

  test('deep indentation is refused and crashes nothing', () => {
    const text = Array.from({ length: 1300 }, (_, i) => `${' '.repeat(i)}a:`).join('\n');
    expect(faultLines(text)).toEqual([`202:201  | ${DEEP} | at most 100 levels | null`]);
  });

  test('aliases that multiply without end are refused', () => {
    const lines = ['a0: &a0 [1, 1, 1, 1, 1, 1, 1, 1, 1, 1]'];
    for (let i = 1; i < 12; i++) lines.push(`a${i}: &a${i} [${`*a${i - 1}, `.repeat(10)}]`);
    expect(faultsOf(lines.join('\n')).map(({ found }) => found)).toEqual(['more than 1000000 values']);
  });

  test('merges that multiply without end are refused', () => {
    const lines = ['a0: &a0 {k0: 1}'];
    for (let i = 1; i < 3_000; i++) lines.push(`a${i}: &a${i} {<<: *a${i - 1}, k${i}: 1}`);
    expect(faultsOf(lines.join('\n')).map(({ found }) => found)).toEqual(['more than 1000000 values']);
  });

  test('a list that contains itself is refused', () => {
    expect(faultsOf('a: &a [*a]').map(({ found }) => found)).toEqual([DEEP]);
  });

  test.each([
    ['brackets', '[]'.repeat(490_000), 1, 100_001],
    ['dashes', '- \n'.repeat(330_000), 100_001, 1],
    ['texts', '"" '.repeat(330_000), 1, 300_001],
    ['aliases', 'a: &a *a\n'.repeat(100_000), 25_001, 1],
    ['lines with %', '%X\n'.repeat(330_000), 100_001, 1],
  ])('a file of %s only is not taken apart to its end', (_, text, line, column) => {
    const found = 'more than 100000 values and signs';
    expect(faultsOf(text)).toEqual([expect.objectContaining({ line, column, found })]);
  });

  test('the faults of an empty document with an alias are in the order of their places', () => {
    const faults = faultsOf('# nothing\n\n  *b\n');
    expect(faults.map(({ line, column }) => [line, column])).toEqual([
      [1, 1],
      [3, 3],
    ]);
  });

  test('45 000 faults, about as many as a file may have values, are no more than a long list', () => {
    const text = cellarWith(['{every: 3, seeds: 10}', `{on: [${'mon, '.repeat(45_000)}], seeds: 1}`]);
    expect(faultsOf(text)).toHaveLength(44_999);
  });

  test('a fault stays short, however long the key', () => {
    const [fault] = faultsOf(cellarWith(['weeks: 26', `weeks: 26\n? ${'k'.repeat(100_000)}\n: 1`]));
    expect(JSON.stringify(fault).length).toBeLessThan(500);
  });

  test('a map that merges itself comes to an end', () => {
    expect(faultsOf('a: &a {<<: *a}').length).toBeGreaterThan(0);
  });
});
