import { expect, test } from 'vitest';
import { threadsThatFit } from '../../sim/seasons/threads.js';

test('as many threads as are wanted, but of lines of a million holes four and of larger ones fewer, one at least', () => {
  expect(
    [150_000, 1_000_000, 1_000_001, 2_000_000, 9_000_000].map((holes) => threadsThatFit(8, holes)),
  ).toEqual([8, 4, 3, 2, 1]);
  expect(threadsThatFit(2, 1_000_000)).toBe(2);
});
