import { describe, expect, test } from 'vitest';
import { fittedLaw } from '../../../../sim/season/fit/survival/laws.js';
import { LifeTable } from '../../../../sim/season/fit/survival/life-table.js';

const law = fittedLaw('gamma', 7, 0.2);

describe.each([
  { loss: 0, germination: 1 },
  { loss: 0.1, germination: 1 },
  { loss: 0.1, germination: 0.8 },
])('with loss $loss and germination $germination', ({ loss, germination }) => {
  const table = new LifeTable(0.5, 60);
  table.set({ law, loss, germination });

  test('every plant has one fate: what left by then and what stands add up to all', () => {
    for (const age of [0, 3, 10, 14, 17, 40]) {
      const sum =
        table.readyBetween(0, age) +
        table.diedBetween(0, age) +
        table.failedBetween(0, age) +
        table.standing(age, age);
      expect(sum).toBeCloseTo(1, 13);
    }
  });

  test('a plant that stands and was last looked for at an earlier front may have been ready since', () => {
    // Between the front and the visit it may only have become ready, not have died.
    const since = table.readyBetween(10, 14);
    expect(table.standing(10, 14) - table.standing(14, 14)).toBeCloseTo(since, 13);
  });

  test('ages are counted in units of the lattice', () => {
    const sprout = germination * (1 - loss);
    expect(table.readyBy(14)).toBeCloseTo(sprout * law.share(7), 13);
    expect(table.readyAfter(14)).toBeCloseTo(sprout * law.beyond(7), 13);
    expect(table.diedBetween(8, 14) + table.failedBetween(8, 14)).toBeCloseTo(
      germination * loss * (law.endedBy(7) - law.endedBy(4)) +
        (1 - germination) * (law.share(7) - law.share(4)),
      13,
    );
  });

  test('before it came in nothing can have happened', () => {
    expect(table.readyBy(-4)).toBe(0);
    expect(table.readyBetween(-9, 0)).toBe(0);
    expect(table.diedBetween(-9, -2) + table.failedBetween(-9, -2)).toBe(0);
    expect(table.standing(-3, -1)).toBeCloseTo(1, 13);
  });
});
