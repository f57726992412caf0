/** Fronts against geometry: plants that become ready evenly over a stretch. */

import { expect, test } from 'vitest';
import { IncidenceCurve } from '../../../../sim/season/fit/survival/incidence-curve.js';
import { fittedLaw } from '../../../../sim/season/fit/survival/laws.js';
import { LifeTable } from '../../../../sim/season/fit/survival/life-table.js';
import { Stretch } from '../../../../sim/season/fit/survival/stretch.js';

test('a front is where its share of the probability lies below, given the one after it', () => {
  // One plant leaves at cell 16, one at cell 24. Within so small a part of its mean an exponential time is even to 1e-4.
  const table = new LifeTable(1, 48);
  table.set({ law: fittedLaw('weibull', 1e6, 1), loss: 0, germination: 1 });
  const curve = new IncidenceCurve(table, [0], 49, 1);
  curve.begin([1]);
  const stretch = new Stretch([16, 24].map((cells) => ({ cells, leaving: [{ batch: 0, count: 1 }] })));
  stretch.forward([curve], () => 0);
  // So any pair of fronts is as likely as any other, if the second is the later one: an area of 16^2/2 + 8 x 16 = 256 square
  // cells, which is 8^2/2 up to cell 8 and 16^2/2 + 4 x 16 up to cell 20. The first is evenly spread below the second or
  // the visit.
  for (const { shares, cells } of [
    { shares: [1 / 2, 32 / 256], cells: [4, 8] },
    { shares: [1 / 4, 32 / 256], cells: [2, 8] },
    { shares: [1 / 2, 192 / 256], cells: [8, 20] },
    { shares: [1 / 4, 192 / 256], cells: [4, 20] },
    // Beyond the middle of the last cell there is no further one to look at.
    { shares: [1 / 2, 1 - 1e-6], cells: [8, 24] },
  ]) {
    const found = stretch.path(shares);
    // Places are two to a cell. What is evenly spread within a cell is put at its middle: half a cell is lost at most.
    cells.forEach((cell, k) => {
      expect(Math.abs(found[k]! / 2 - cell), `${shares}: ${found}`).toBeLessThan(0.5);
    });
  }
});
