import { expect, test } from 'vitest';
import { spanOf, withinText } from '../../../cli/words/range.js';

function range(p10: number, p50: number, p90: number) {
  return { mean: p50, se: null, p10, p50, p90 };
}

test('eight in ten futures stay within whole numbers', () => {
  expect(spanOf(range(2.4, 4, 6.7))).toEqual({ low: 3, high: 6 });
  // Between 2.2 and 2.9 there is none: the one nearest to the middle.
  expect(spanOf(range(2.2, 2.6, 2.9))).toEqual({ low: 3, high: 3 });
});

test('nothing is told beside a number of which no other is likely', () => {
  expect(withinText(range(9, 1200, 1400))).toBe('(9 to 1 400)');
  expect(withinText(range(7, 7, 7))).toBe('');
});
