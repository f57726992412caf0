/** Whole seeds out of what fits. */

import { expect, test } from 'vitest';
import type { ComingSowing } from '../../../sim/season/ahead/coming-sowings.js';
import { wholeSeeds } from '../../../sim/season/ahead/seeds-that-fit.js';

function sowings(crops: readonly number[]): ComingSowing[] {
  return crops.map((crop, i) => ({
    crop,
    day: i,
    due: i,
    sowings: 1,
    each: 1,
    missed: 0,
    planned: 1,
    next: i + 1,
  }));
}

test('what rounding leaves is carried on, so the sum is right', () => {
  const fitting = [2.4, 2.4, 2.4, 2.4, 2.4].map((seeds) => ({ seeds, cells: 10 }));
  expect(wholeSeeds(sowings([0, 0, 0, 0, 0]), fitting, 1)).toEqual([2, 3, 2, 3, 2]);
});

test('each crop carries its own', () => {
  const fitting = [2.4, 1.4, 2.4, 1.4].map((seeds) => ({ seeds, cells: 10 }));
  expect(wholeSeeds(sowings([0, 1, 0, 1]), fitting, 1)).toEqual([2, 1, 3, 2]);
});

test('a multiple is taken before rounding, and never more than there are cells', () => {
  const fitting = [
    { seeds: 4, cells: 4.9 },
    { seeds: 4, cells: 10 },
  ];
  expect(wholeSeeds(sowings([0, 0]), fitting, 1.5)).toEqual([4, 7]);
  expect(wholeSeeds(sowings([0]), [{ seeds: 0, cells: 0 }], 2)).toEqual([0]);
});
