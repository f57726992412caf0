import { expect, test } from 'vitest';
import { typedValue, withTyped } from '../../sim/scenario/typed.js';
import { CELLAR, KITCHEN } from '../cli/dashboard/given.js';

test('a text says what it would say behind the colon of a key', () => {
  const said = ['12', '1.5', 'daily', '[mon, thu]', 'mon thu', '{every: 3}', '"12"'].map((text) => {
    const value = typedValue(text);
    return value.ok ? value.value : value.faults;
  });
  expect(said).toEqual([12, 1.5, 'daily', ['mon', 'thu'], 'mon thu', { every: 3 }, '12']);
});

test('what is no YAML, or no plain value, is a fault and never thrown', () => {
  for (const text of ['[mon', '"a', '*a', '{a: 1, a: 2}', '!x 1', '%', '@']) {
    const value = typedValue(text);
    expect(value.ok, text).toBe(false);
    if (!value.ok) expect(value.faults[0]!.expected).not.toBe('');
  }
});

test('a value that the schema takes stands in the scenario, all else as it was', () => {
  const changed = withTyped(CELLAR, ['stages', 1, 'channels'], 5);
  expect(changed).toEqual({
    ok: true,
    value: {
      ...CELLAR,
      stages: CELLAR.stages.map((stage, s) => (s === 1 ? { ...stage, channels: 5 } : stage)),
    },
  });
});

test('one that it does not take is told as in a file, also where two keys say it together', () => {
  const faults = (path: (string | number)[], value: unknown, scenario = CELLAR): string[] => {
    const changed = withTyped(scenario, path, value);
    return changed.ok ? [] : changed.faults.map(({ found, expected }) => `${found}: ${expected}`);
  };
  expect(faults(['stages', 1, 'channels'], 0)).toEqual(['0: a whole number from 1 to 100000 (channels)']);
  expect(faults(['stages', 1, 'channels'], 100_000)).toEqual([
    '2400112 holes in all (channels times holes): at most 2000000 holes in the whole line',
  ]);
  expect(faults(['want', 'on'], ['mon', 'mon'], KITCHEN)).toEqual([
    '"mon" a second time: every weekday once',
  ]);
});
