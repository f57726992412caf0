import { expect, test } from 'vitest';
import { dateText, daysText } from '../../../cli/words/dates.js';
import {
  COUNT,
  counted,
  countText,
  decimalsFor,
  figureText,
  fixed,
  gainText,
  intervalText,
  percentText,
  SHARE,
  signed,
  thousands,
} from '../../../cli/words/numbers.js';

test('dates are read with their weekday, whatever the time zone', () => {
  expect(dateText('2027-01-04')).toBe('Mon 4 Jan 2027');
  expect(dateText('2028-02-29')).toBe('Tue 29 Feb 2028');
});

test('days from one to the same are that one', () => {
  expect(daysText('2027-01-04', '2027-01-04')).toBe('Mon 4 Jan 2027');
  expect(daysText('2027-01-04', '2027-01-06')).toBe('Mon 4 Jan 2027 to Wed 6 Jan 2027');
});

test('values for a scenario have so many digits that tell something', () => {
  const text = (value: number, digits: number): string => figureText(value, { as: 'digits', digits });
  expect([text(0.009934, 3), text(13.957, 4), text(12, 4), text(1234.56, 3)]).toEqual([
    '0.00993',
    '13.96',
    '12',
    '1 230',
  ]);
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

test('what is rounded to nothing has no sign', () => {
  expect(figureText(-0.004, fixed(2))).toBe('0.00');
  expect(figureText(-0.006, fixed(2))).toBe('-0.01');
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

test('one is one, not many', () => {
  expect([1, 2].map((count) => counted(count, 'week'))).toEqual(['1 week', '2 weeks']);
  expect([1, 1.04, 1.3, 1200].map((mean) => counted(mean, 'head'))).toEqual([
    '1 head',
    '1.0 heads',
    '1.3 heads',
    '1 200 heads',
  ]);
});

test('large gains are in groups of three, their decimals are not', () => {
  expect([16549, -1234567, 999.96].map((gain) => gainText(gain, 0))).toEqual([
    '+16 549',
    '-1 234 567',
    '+1 000',
  ]);
  expect(gainText(1234.5678, 3)).toBe('+1 234.568');
});

test('an interval is written from its low end to its high one, its unit once', () => {
  expect(intervalText({ low: 9.25, high: 1200 }, COUNT)).toBe('9.3 to 1 200');
  expect(intervalText({ low: 0.0004, high: 0.12 }, SHARE)).toBe('<0.1 to 12.0 %');
  expect(intervalText({ low: -0.034, high: 0.02 }, signed(1, true))).toBe('-3.4 to +2.0 %');
  expect(intervalText({ low: 1.5, high: 1234.5 }, fixed(2))).toBe('1.50 to 1 234.50');
});
