/** Since when plants stand, as notes say it. */

import { expect, test } from 'vitest';
import { sinceFault, sinceOf } from '../../../sim/season/log/since.js';

test('a note says a day, a span, or nothing; what else it says does not matter', () => {
  expect(sinceOf('since 2027-02-01')).toEqual({ from: '2027-02-01', to: '2027-02-01' });
  expect(sinceOf('Since 2027-02-01..2027-02-10; bought')).toEqual({ from: '2027-02-01', to: '2027-02-10' });
  expect(sinceOf('bought')).toBeNull();
  expect(sinceOf(null)).toBeNull();
});

test.each([
  'since 2027-02-01..',
  'since then',
  'since 2027-02-30',
  'since 2027-02-10..2027-02-01',
  'since 2027-02-01..2027-02-16',
])('%s is no such note on 2027-02-15', (note) => {
  expect(sinceFault(note, '2027-02-15')).not.toBeNull();
});

test('up to the day of the row itself', () => {
  expect(sinceFault('since 2027-02-01..2027-02-15', '2027-02-15')).toBeNull();
});
