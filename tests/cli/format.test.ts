import { expect, test } from 'vitest';
import {
  columns,
  countText,
  dateText,
  decimalsFor,
  gainText,
  percentText,
  thousands,
  wrap,
} from '../../cli/views/format.js';

test('dates are read with their weekday, whatever the time zone', () => {
  expect(dateText('2027-01-04')).toBe('Mon 4 Jan 2027');
  expect(dateText('2028-02-29')).toBe('Tue 29 Feb 2028');
});

test('counts are whole where they are whole or large', () => {
  expect([0, 3, 3.25, 99.94, 100.4, 1092000].map(countText)).toEqual([
    '0',
    '3',
    '3.3',
    '99.9',
    '100',
    '1 092 000',
  ]);
  expect(thousands(999)).toBe('999');
});

test('a share that is not 0 never reads as 0, and one that is not all never as 100', () => {
  expect([0, 0.00001, 0.0123, 0.9999, 1].map(percentText)).toEqual([
    '0 %',
    '<0.1 %',
    '1.2 %',
    '>99.9 %',
    '100.0 %',
  ]);
});

test('gains carry their sign, and a nothing has none', () => {
  expect([0.31, -0.31, 0.004, -0.004].map((gain) => gainText(gain, 1))).toEqual([
    '+0.3',
    '-0.3',
    '0.0',
    '0.0',
  ]);
});

test('small figures show two digits, large ones none behind the point', () => {
  expect([0, 0.02, 0.3, 4, 40, 1800].map(decimalsFor)).toEqual([1, 3, 2, 1, 1, 0]);
});

test('columns line up: the first to the left, the others to the right', () => {
  expect(
    columns([
      ['a', '1'],
      ['long', '100'],
    ]),
  ).toEqual(['a       1', 'long  100']);
});

test('sentences are broken between words', () => {
  expect(wrap('one two three', 9, '  ')).toBe('  one two\n  three');
});
