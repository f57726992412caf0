/** Schema of the four ways to say when a crop is sown. */

import * as z from 'zod';
import { field } from './expectations.js';
import { date, weekdays, whole } from './fields.js';

const seeds = whole(1, 1_000_000, 'Seeds per sowing.', 'seeds', { example: 'seeds: 10' });

const every = field(
  z.number().min(0.01).max(3650),
  'Days from one sowing to the next, the first on day 0; fractions are allowed [days].',
  { expected: 'a number from 0.01 to 3650 (days)', example: 'every: 3' },
);

const dates = field(z.array(date('A date of sowing.', 'dates')).min(1), 'Dates on which sowings are due.', {
  expected: 'a list of at least one date as YYYY-MM-DD',
  example: 'dates: [2027-01-04, 2027-01-11]',
});

const refill = field(z.literal(true), 'Sow at each visit what the line will miss.', {
  expected: 'true (or one of every, on, dates with seeds instead of refill)',
  example: 'sow: {refill: true}',
});

export const sow = field(
  z.union([
    z.strictObject({ every, seeds }),
    z.strictObject({ on: weekdays('Weekdays on which sowings are due.', 'on'), seeds }),
    z.strictObject({ dates, seeds }),
    z.strictObject({ refill }),
  ]),
  'When seeds are sown, and how many.',
  {
    expected: 'exactly one of the keys every, on, dates (each with seeds) or refill: true',
    example: 'sow: {every: 3, seeds: 10}',
  },
);
