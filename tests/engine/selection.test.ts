/** The value of a rank, held against putting all values into order. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { valueOfRank } from '../../sim/engine/selection.js';

test('each rank of seven values, three of them alike', () => {
  const values = [17, 5, 11, 5, 23, 5, 11];
  const found = values.map((_, rank) => valueOfRank(Float64Array.from(values), rank));
  expect(found).toEqual([5, 5, 5, 11, 11, 17, 23]);
});

test('any values, with and without equal ones, asked for one rank after another', () => {
  const values = fc.oneof(
    fc.array(fc.integer({ min: 0, max: 5 }), { minLength: 1, maxLength: 200 }),
    fc.array(fc.double({ noNaN: true }), { minLength: 1, maxLength: 200 }),
  );
  const property = fc.property(values, fc.array(fc.nat(), { minLength: 1, maxLength: 6 }), (some, asked) => {
    const sorted = [...some].sort((a, b) => a - b);
    const given = Float64Array.from(some);
    for (const any of asked) {
      const rank = any % some.length;
      // 0 and -0 are the same value.
      expect(valueOfRank(given, rank) === sorted[rank]).toBe(true);
    }
    expect([...given].sort((a, b) => a - b).map((x) => x + 0)).toEqual(sorted.map((x) => x + 0));
  });
  fc.assert(property, { seed: 20270104, numRuns: 300 });
});
