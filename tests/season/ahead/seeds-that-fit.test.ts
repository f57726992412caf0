/** Whole seeds out of what fits. */

import { expect, test } from 'vitest';
import type { ComingSowing } from '../../../sim/season/ahead/coming-sowings.js';
import { Load, watchLoad } from '../../../sim/season/ahead/load-watch.js';
import { smallNumbers } from '../../../sim/season/ahead/plant-column.js';
import { seedsThatFit, wholeSeeds } from '../../../sim/season/ahead/seeds-that-fit.js';
import { crop, every, grow, line, stage, time, visitDays } from '../../support/plans.js';

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

test('what is wanted may come from later cuts: then nothing is sown for it', () => {
  // A head a day is wanted. Ten plants of day 0 give ten from day 10 to 19 and as many again twice, some 5 and 10 days later: of
  // these about 14 come on the days from 20 to 29, on which ten are wanted.
  const days = Array.from({ length: 70 }, (_, day) => day);
  const plan = line(
    [stage('bed', 100)],
    [crop([grow(time(10))], every(10, 70, 1), { cuts: 3, regrow: grow(time(5)) })],
    { weeks: 10, visits: visitDays(10), want: { heads: 1, days } },
  );
  const single = { crop: 0, sowings: 1, each: 1, missed: 0, planned: 1 };
  const coming = [0, 10].map((day) => ({ ...single, day, due: day, next: day + 10 }));
  const empty = new Load(plan, [watchLoad(plan, null, smallNumbers()).end()]);
  const found = seedsThatFit(plan, coming, empty);
  expect(found.map(({ seeds }) => seeds)).toEqual([10, 0]);
});
