import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  dayFrom,
  dayNumber,
  isExpectedDate,
  isIsoDate,
  isoOfDay,
  weekdayOfDay,
  whyNoDate,
} from '../../sim/models/dates.js';

describe('dates', () => {
  test('are counted from 1970-01-01', () => {
    expect(dayNumber('1970-01-01')).toBe(0);
    expect(dayNumber('2000-03-01')).toBe(11_017);
  });

  test('that do not exist are refused', () => {
    for (const text of [
      '2027-02-29',
      '2027-02-30',
      '2027-13-01',
      '2027-00-10',
      '2027-1-4',
      '04/01/2027',
      '',
      'now',
    ]) {
      expect(isIsoDate(text), text).toBe(false);
      expect(() => dayNumber(text)).toThrow(RangeError);
    }
  });

  test('have leap days every 4 years, not every 100, but every 400', () => {
    expect(['2028-02-29', '2100-02-29', '2000-02-29'].map(isIsoDate)).toEqual([true, false, true]);
  });

  test('come back from the day that they became', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 3650 }), (day) => {
        expect(dayFrom('2027-01-04', isoOfDay('2027-01-04', day))).toBe(day);
      }),
      { seed: 1 },
    );
  });

  test('of a fraction of a day are those on which it falls', () => {
    expect(isoOfDay('2027-01-04', 0.99)).toBe('2027-01-04');
    expect(isoOfDay('2027-01-04', 58)).toBe('2027-03-03');
  });

  test('have a weekday, Monday first', () => {
    expect(weekdayOfDay('2027-01-04', 0)).toBe(0);
    expect(weekdayOfDay('2027-01-04', 6)).toBe(6);
    expect(weekdayOfDay('2027-01-04', 7)).toBe(0);
    // 1969-07-20 was a Sunday, before day 0 of the count.
    expect(weekdayOfDay('1969-07-20', 0)).toBe(6);
  });

  test('that do not exist are explained', () => {
    expect(whyNoDate('2027-02-30')).toBe('2027-02 has the days 01 to 28.');
    expect(whyNoDate('2028-02-30')).toBe('2028-02 has the days 01 to 29.');
    expect(whyNoDate('2027-13-01')).toBe('A year has the months 01 to 12.');
    expect(whyNoDate('2027-04-00')).toBe('2027-04 has the days 01 to 30.');
    expect(whyNoDate('2027-04-01')).toBeNull();
    expect(whyNoDate('4.1.2027')).toBeNull();
  });
});

test.each([
  ['1899-12-31', false],
  ['1900-01-01', true],
  ['2999-12-31', true],
  ['3000-01-01', false],
  ['2028-02-29', true],
  ['2027-02-29', false],
  ['2027-2-3', false],
])('%s may stand in a scenario, a log or an option: %s', (text, may) => {
  expect(isExpectedDate(text)).toBe(may);
});
