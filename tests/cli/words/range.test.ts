/** What a figure may be, in few letters; and whether "8 of 10" may be said of it. */

import { expect, test } from 'vitest';
import { mostText, withinText } from '../../../cli/words/range.js';

test('a range stands in brackets; nothing stands there where one number only is likely', () => {
  expect(withinText({ low: 3, high: 6 })).toBe('(3 to 6)');
  expect(withinText({ low: 3, high: 3 })).toBe('');
});

test('8 of 10 is said of ranges that hold 78 to 82 % of the futures on average, else the true share', () => {
  const range = (share: number, low = 1, high = 2) => ({ low, high, share });
  expect(mostText([range(0.75), range(0.85)])).toBe('8 of 10 futures');
  expect(mostText([range(0.9), range(0.86)])).toBe('88 % of futures');
  expect(mostText([range(0.7), range(0.76)])).toBe('73 % of futures');
  // Single numbers claim nothing.
  expect(mostText([range(0.8), range(1, 2, 2)])).toBe('8 of 10 futures');
  expect(mostText([range(1, 2, 2)])).toBe('8 of 10 futures');
});
