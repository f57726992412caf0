import { describe, expect, test } from 'vitest';
import { defaultSeasons } from '../../sim/seasons/how-many.js';
import { large, small } from '../bench/plans.js';
import { every } from '../support/plans.js';

describe('the usual number of seasons', () => {
  test('is 200 for a small line', () => {
    expect(defaultSeasons(small)).toBe(200);
  });
  test('is fewer for a very large one, but at least 20', () => {
    expect(defaultSeasons(large)).toBe(27);
    const huge = { ...large, crops: large.crops.map((c) => ({ ...c, sowing: every(1, 364, 100_000) })) };
    expect(defaultSeasons(huge)).toBe(20);
  });
});
