/** Schema of the four ways to say when a crop is sown. */

import * as z from 'zod';
import { EVERY, SEEDS } from '../models/limits.js';
import { nearest } from '../models/nearest.js';
import { field } from './expectations.js';
import { date, weekdays, whole } from './fields.js';

const seeds = whole(SEEDS, 'Seeds per sowing.', 'seeds', { example: 'seeds: 10' });

const every = field(
  z.number().min(EVERY.least).max(EVERY.most),
  'Days from one sowing to the next, the first on day 0; fractions are allowed [days].',
  { expected: `a number from ${EVERY.least} to ${EVERY.most} (days)`, example: 'every: 3' },
);

const dates = field(z.array(date('A date of sowing.', 'dates')).min(1), 'Dates on which sowings are due.', {
  expected: 'a list of at least one date as YYYY-MM-DD',
  example: 'dates: [2027-01-04, 2027-01-11]',
});

const refill = field(z.literal(true), 'Sow at each visit what the line will miss.', {
  expected: 'true (or one of every, on, dates with seeds instead of refill)',
  example: 'sow: {refill: true}',
});

const RULES = ['made_up', 'dropped'] as const;

const missed = field(
  z.enum(RULES),
  'What a visit sows where several sowings fell due since the last one: all of them, or only the latest; made_up if not given.',
  {
    expected: 'made_up (all that fell due is sown) or dropped (only the latest sowing)',
    example: 'missed: dropped',
    nearest: (word) => nearest(word, [...RULES]),
  },
).optional();

export const sow = field(
  z.union([
    z.strictObject({ every, seeds, missed }),
    z.strictObject({ on: weekdays('Weekdays on which sowings are due.', 'on'), seeds, missed }),
    z.strictObject({ dates, seeds, missed }),
    z.strictObject({ refill }),
  ]),
  'When seeds are sown, and how many.',
  {
    expected: 'exactly one of the keys every, on, dates (each with seeds) or refill: true',
    example: 'sow: {every: 3, seeds: 10}',
  },
);
