import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse as readYaml } from 'yaml';
import * as amend from '../../sim/scenario/amend.js';
import { pathText } from '../../sim/scenario/faults.js';
import { readScenario } from '../../sim/scenario/read.js';
import { successOf } from '../support/success-of.js';
import { CELLAR, cellarWith, readWell } from './cellar.js';

function amendScenario(text: string, changes: readonly amend.Amendment[]): string {
  return successOf(amend.amendScenario(text, changes));
}

/** The lines that differ, as `before -> after`. */
function changedLines(before: string, after: string): string[] {
  const [old, now] = [before.split('\n'), after.split('\n')];
  expect(now).toHaveLength(old.length);
  return old.flatMap((line, i) => (line === now[i] ? [] : [`${line.trim()} -> ${now[i]!.trim()}`]));
}

describe('a value that is there', () => {
  test('is replaced in its place; comments, blanks and order stay', () => {
    const after = amendScenario(CELLAR, [
      { path: ['stages', 1, 'channels'], value: 3 },
      { path: ['crops', 0, 'sow'], value: { every: 4, seeds: 12 } },
      { path: ['crops', 0, 'stages', 'finishing', 'days'], value: 22.5 },
      { path: ['visits'], value: 'daily' },
    ]);
    expect(changedLines(CELLAR, after)).toEqual([
      'visits: [mon, thu, sat]        # or daily, or always -> visits: daily        # or daily, or always',
      '- {name: nursery, channels: 2, holes: 24, hole_area_cm2: 100} -> - {name: nursery, channels: 3, holes: 24, hole_area_cm2: 100}',
      expect.stringMatching(
        /^sow: \{every: 3, seeds: 10\} {2}# or .* -> sow: \{every: 4, seeds: 12\} {2}# or /,
      ),
      'finishing: {days: 21, spread: 0.12, loss: 0.02, keeps: 7, shape: gamma} -> finishing: {days: 22.5, spread: 0.12, loss: 0.02, keeps: 7, shape: gamma}',
    ]);
  });

  test('in block style is replaced too', () => {
    const text = CELLAR.replace(
      /sow: \{every: 3, seeds: 10\}.*\n/,
      'sow:\n      every: 3 # days\n      seeds: 10\n',
    );
    const after = amendScenario(text, [{ path: ['crops', 0, 'sow', 'every'], value: 5 }]);
    expect(changedLines(text, after)).toEqual(['every: 3 # days -> every: 5 # days']);
    const whole = amendScenario(text, [{ path: ['crops', 0, 'sow'], value: { refill: true } }]);
    const read = readScenario(whole);
    expect(read.ok && read.value.scenario.crops[0]!.sow).toEqual({ refill: true });
  });
});

test('a key that is not there is added, and the comments stay', () => {
  const after = amendScenario(CELLAR, [
    { path: ['crops', 0, 'stages', 'nursery', 'shape'], value: 'weibull' },
  ]);
  const read = readScenario(after);
  expect(read.ok && read.value.scenario.crops[0]!.stages['nursery']).toMatchObject({
    days: 14,
    shape: 'weibull',
  });
  for (const comment of CELLAR.match(/#.*/g)!) expect(after).toContain(comment.trim());
});

describe('a key that is not there is put behind the last one, and not a sign of the rest changes', () => {
  /** The lines of `after` that `before` does not have, when all others are the same in the same order. */
  function addedLines(before: string, after: string): string[] {
    const old = before.split('\n');
    const added: string[] = [];
    for (const line of after.split('\n')) {
      if (line === old[0]) old.shift();
      else added.push(line);
    }
    expect(old).toEqual([]);
    return added;
  }

  test('of a map in braces, on its line', () => {
    const text = CELLAR.replace(', loss: 0.03', '');
    const after = amendScenario(text, [{ path: ['crops', 0, 'stages', 'nursery', 'loss'], value: 0.02 }]);
    expect(changedLines(text, after)).toEqual([
      expect.stringMatching(/^nursery: \{.*\} -> nursery: \{.*, loss: 0\.02\}/),
    ]);
  });

  test.each(['\n', '\r\n'])('of a map in lines, as a line of its own (%j)', (end) => {
    const text = CELLAR.replace(/ *germination: 0\.\d+.*\n/, '').replaceAll('\n', end);
    const after = amendScenario(text, [{ path: ['crops', 0, 'germination'], value: 0.85 }]);
    expect(addedLines(text, after).map((line) => line.trim())).toEqual(['germination: 0.85']);
    const read = readScenario(after);
    expect(read.ok && read.value.scenario.crops[0]!.germination).toBe(0.85);
    if (end === '\r\n') expect(after.replaceAll('\r\n', '')).not.toContain('\n');
  });

  test('of JSON, whatever its layout', () => {
    const text = JSON.stringify({ a: [{ b: 1 }], c: { d: 2 } }, null, 4);
    const after = amendScenario(text, [{ path: ['c', 'e'], value: 3 }]);
    expect(JSON.parse(after)).toEqual({ a: [{ b: 1 }], c: { d: 2, e: 3 } });
    expect(changedLines(text, after)).toEqual(['"d": 2 -> "d": 2, "e": 3']);
  });
});

test('a key is taken out', () => {
  const after = amendScenario(CELLAR, [{ path: ['want'], value: undefined }]);
  const read = readScenario(after);
  expect(read.ok && read.value.scenario.want).toBeUndefined();
});

test('JSON stays JSON', () => {
  const read = readScenario(CELLAR);
  if (!read.ok) throw new Error('the cellar is wrong');
  const json = JSON.stringify(read.value.scenario, null, 2);
  const after = amendScenario(json, [
    { path: ['stages', 0, 'channels'], value: 7 },
    { path: ['crops', 0, 'sow'], value: { on: ['mon'], seeds: 3 } },
    { path: ['stages', 0, 'clean_days'], value: 2 },
  ]);
  expect(JSON.parse(after)).toMatchObject({
    stages: [{ channels: 7, clean_days: 2 }, {}, {}],
    crops: [{ sow: { on: ['mon'], seeds: 3 } }],
  });
});

test('a change behind an alias leaves the other place as it was', () => {
  const text = CELLAR.replace('germination: {days: 7', 'germination: &usual {days: 7').replace(
    /nursery: \{days.*\n/,
    'nursery: *usual\n',
  );
  for (const [changed, other] of [
    ['nursery', 'germination'],
    ['germination', 'nursery'],
  ] as const) {
    const after = amendScenario(text, [{ path: ['crops', 0, 'stages', changed, 'days'], value: 9 }]);
    const read = readScenario(after);
    if (!read.ok) throw new Error(JSON.stringify(read.faults));
    expect(read.value.scenario.crops[0]!.stages[changed]).toMatchObject({ days: 9 });
    expect(read.value.scenario.crops[0]!.stages[other]).toMatchObject({ days: 7 });
  }
});

describe('where keys come in by a merge, a change sets that one key and all else says what it said', () => {
  /** Two crops, the second with what the first has in common with it. */
  const merged = cellarWith(
    ['    stages:\n      germination', '    stages: &usual\n      germination'],
    ['      nursery: {days: 14,', '      nursery: &young {days: 14,'],
  ).replace(
    'want:',
    `  - name: oakleaf
    sow: {every: 7, seeds: 5}
    stages:
      <<: *usual # as the butterhead
      germination: {<<: *young, days: 6}
want:`,
  );
  const before = readWell(merged).value.scenario;
  const [first, second] = before.crops as [Crop, Crop];
  type Crop = (typeof before.crops)[number];

  function cropsAfter(path: readonly (string | number)[], value: unknown): readonly Crop[] {
    const { crops, ...rest } = readWell(amendScenario(merged, [{ path, value }])).value.scenario;
    expect({ ...rest, crops: before.crops }).toEqual(before);
    return crops;
  }

  test('in a map that is merged as a whole', () => {
    const nursery = { ...second.stages['nursery']!, days: 8 };
    expect(cropsAfter(['crops', 1, 'stages', 'nursery', 'days'], 8)).toEqual([
      first,
      { ...second, stages: { ...second.stages, nursery } },
    ]);
  });

  test('in a map that others merge', () => {
    const nursery = { ...first.stages['nursery']!, loss: 0.5 };
    expect(cropsAfter(['crops', 0, 'stages', 'nursery', 'loss'], 0.5)).toEqual([
      { ...first, stages: { ...first.stages, nursery } },
      second,
    ]);
  });

  test('beside a merge, in its place: the merge stays as it is written', () => {
    const after = amendScenario(merged, [
      { path: ['crops', 1, 'stages', 'germination', 'loss'], value: 0.01 },
    ]);
    expect(changedLines(merged, after)).toEqual([
      'germination: {<<: *young, days: 6} -> germination: {<<: *young, days: 6, loss: 0.01}',
    ]);
  });

  test('also where it is taken out', () => {
    const { keeps: _, ...germination } = second.stages['germination']!;
    expect(cropsAfter(['crops', 1, 'stages', 'germination', 'keeps'], undefined)).toEqual([
      first,
      { ...second, stages: { ...second.stages, germination } },
    ]);
  });

  test('of several merged maps the first one counts, as for the reader', () => {
    const text = merged.replace('{<<: *young, days: 6}', '{<<: [{loss: 0.2, keeps: 2}, *young], days: 6}');
    const { crops } = readWell(text).value.scenario;
    const after = readWell(
      amendScenario(text, [{ path: ['crops', 1, 'stages', 'nursery', 'days'], value: 8 }]),
    );
    expect(after.value.scenario.crops[1]!.stages['germination']).toEqual(crops[1]!.stages['germination']);
  });

  test('and every comment stays', () => {
    const after = amendScenario(merged, [{ path: ['crops', 1, 'stages', 'nursery', 'days'], value: 8 }]);
    for (const comment of merged.match(/#.*/g)!) expect(after).toContain(comment.trim());
  });
});

test('a stage whose name reads as a number is found by its name', () => {
  const text = cellarWith(['name: nursery', 'name: "007"'], ['      nursery:', '      007:']);
  const after = amendScenario(text, [{ path: ['crops', 0, 'stages', '007', 'days'], value: 15 }]);
  expect(changedLines(text, after)).toHaveLength(1);
  expect(readWell(after).value.scenario.crops[0]!.stages['007']).toMatchObject({ days: 15, keeps: 7 });
});

test('any of these changes to any example gives that scenario with these changes and no other', () => {
  const texts = readdirSync('scenarios')
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => readFileSync(`scenarios/${name}`, 'utf8'))
    .map((text) => ({ text, scenario: readWell(text).value.scenario }));
  const sow = fc.oneof(
    fc.record({ every: fc.integer({ min: 1, max: 20 }), seeds: fc.integer({ min: 1, max: 99 }) }),
    fc.record({
      on: fc.subarray(['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'], { minLength: 1 }),
      seeds: fc.integer({ min: 1, max: 99 }),
    }),
    fc.constant({ refill: true }),
  );
  fc.assert(
    fc.property(
      fc.constantFrom(...texts),
      sow,
      fc.integer({ min: 1, max: 50 }),
      fc.constantFrom('daily', ['mon', 'fri']),
      ({ text, scenario }, newSow, channels, visits) => {
        const last = scenario.crops.length - 1;
        const after = readScenario(
          amendScenario(text, [
            { path: ['crops', last, 'sow'], value: newSow },
            { path: ['stages', 0, 'channels'], value: channels },
            { path: ['visits'], value: visits },
          ]),
        );
        if (!after.ok) throw new Error(JSON.stringify(after.faults));
        expect(after.value.scenario).toEqual({
          ...scenario,
          visits,
          stages: scenario.stages.map((stage, s) => (s === 0 ? { ...stage, channels } : stage)),
          crops: scenario.crops.map((crop, c) => (c === last ? { ...crop, sow: newSow } : crop)),
        });
      },
    ),
    { seed: 1, numRuns: 200 },
  );
});

describe('what cannot be amended is told with its place', () => {
  function faultsOf(text: string, path: amend.Amendment['path'], value: unknown = 1) {
    const amended = amend.amendScenario(text, [{ path, value }]);
    return amended.ok ? [] : amended.faults.map((fault) => [fault.line, fault.path, fault.found]);
  }

  test('a text that cannot be parsed', () => {
    expect(faultsOf('a: [', ['a'])).toEqual([[1, '', expect.stringMatching(/not YAML/)]]);
  });

  test('a text that cannot be read', () => {
    expect(faultsOf('a: 1\na: 2', ['a'])).toEqual([[2, 'a', 'the key a a second time (first in line 1)']]);
  });

  test.each<[string, amend.Amendment['path']]>([
    ['a number has no keys', ['weeks', 'length']],
    ['nothing has no keys', ['nothing', 'more']],
    ['a list has as many items as it has', ['list', 2, 'a']],
    ['a list has no keys', ['list', 'a']],
  ])('%s', (_, path) => {
    const text = 'list: [1, 2]\nnothing:\nweeks: 3\n';
    expect(faultsOf(text, path)).toEqual([
      [expect.any(Number), pathText(path), 'no place for what is to be set'],
    ]);
    expect(amendScenario(text, [{ path, value: undefined }])).toBe(text);
  });

  test('nothing of several changes is made', () => {
    const changes = [
      { path: ['a'], value: 2 },
      { path: ['a', 'b'], value: 3 },
    ];
    expect(amend.amendScenario('a: 1', changes).ok).toBe(false);
  });
});

test('maps on the way to a key that is not there are made', () => {
  expect(readYaml(amendScenario('a: 1\n', [{ path: ['b', 'c', 'd'], value: 2 }]))).toEqual({
    a: 1,
    b: { c: { d: 2 } },
  });
});
