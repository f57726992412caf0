import { expect, test } from 'vitest';
import { daysEvery, daysOn } from '../../sim/models/cadence.js';

test('a sowing every so many days falls on day 0 and on each multiple before the end', () => {
  expect(daysEvery(3, 10)).toEqual([0, 3, 6, 9]);
  expect(daysEvery(2.5, 10)).toEqual([0, 2.5, 5, 7.5]);
  expect(daysEvery(20, 10)).toEqual([0]);
});

test.each([0, -1, 1e-9, Number.NaN, Number.POSITIVE_INFINITY])(
  'every %d days is no cadence: it is refused before a list is made that has no end',
  (every) => {
    expect(() => daysEvery(every, 10)).toThrow(RangeError);
  },
);

test('weekdays fall by the date of day 0', () => {
  // 2027-01-06 is a Wednesday.
  expect(daysOn(['mon', 'thu'], '2027-01-06', 14)).toEqual([1, 5, 8, 12]);
});
