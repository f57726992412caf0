import { expect, test } from 'vitest';
import { threadsThatFit } from '../../sim/seasons/threads.js';

test('as many threads as are wanted, but of lines of a million holes four and of larger ones fewer, one at least', () => {
  expect(
    [150_000, 1_000_000, 1_000_001, 2_000_000, 9_000_000].map((holes) => threadsThatFit(8, holes)),
  ).toEqual([8, 4, 3, 2, 1]);
  expect(threadsThatFit(2, 1_000_000)).toBe(2);
});

test('all threads together hold at most 4 million holes, also where many are wanted of small lines', () => {
  for (const holes of [100_000, 125_000, 125_001, 150_000, 400_000, 1_000_000, 4_000_000]) {
    const threads = threadsThatFit(32, holes);
    expect(threads * holes).toBeLessThanOrEqual(4_000_000);
    expect(threads === 32 || (threads + 1) * holes > 4_000_000).toBe(true);
  }
  expect([125_000, 125_001, 150_000].map((holes) => threadsThatFit(32, holes))).toEqual([32, 31, 26]);
});
