/** What is kept of the plants of a future. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { smallNumbers } from '../../../sim/season/ahead/plant-column.js';
import { SownInTurn } from '../../../sim/season/ahead/sown-in-turn.js';

test('of plants in turn each has what was told of the row in which it was sown', () => {
  const rows = fc.array(fc.record({ plants: fc.integer({ min: 1, max: 5 }), common: fc.nat(2) }));
  fc.assert(
    fc.property(rows, fc.nat(9), (sown, first) => {
      const all = sown.flatMap(({ plants, common }) => new Array<number>(plants).fill(common));
      const kept = new SownInTurn<number>();
      for (const [i, common] of all.entries()) kept.add(first + i, common);
      expect(all.map((_, i) => kept.of(first + i))).toEqual(all);
      expect(kept.of(first - 1)).toBeUndefined();
      expect(kept.all()).toEqual([...new Set(all)]);
    }),
    { seed: 1 },
  );
});

test('a column is 0 but where it was set, also when it serves for another future', () => {
  const column = smallNumbers();
  column.set(3, 7);
  column.set(1000, 9);
  expect([0, 3, 999, 1000, 5000].map((plant) => column.get(plant))).toEqual([0, 7, 0, 9, 0]);
  column.reset(2000);
  expect([3, 1000, 1999].map((plant) => column.get(plant))).toEqual([0, 0, 0]);
  expect(column.length).toBeGreaterThanOrEqual(2000);
});
