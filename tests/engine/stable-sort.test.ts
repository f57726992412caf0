/** What is put in order is what the sort of the language gives. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { placesInOrder, sortStably } from '../../sim/engine/stable-sort.js';

/** Figures of which many are equal, so that the order of these shows. */
const figures = fc.array(
  fc.oneof(fc.constantFrom(0.25, 0.5, 1 - 2 ** -33), fc.double({ min: 0, max: 1 - 2 ** -33, noNaN: true })),
  { maxLength: 300, size: 'max' },
);

function expected(of: Float64Array): number[] {
  return [...of.keys()].sort((a, b) => of[a]! - of[b]!);
}

test('figures between 0 and 1 are put in order, equal ones as they were', () => {
  fc.assert(
    fc.property(figures, (list) => {
      const of = Float64Array.from(list);
      expect([...placesInOrder(of)]).toEqual(expected(of));
    }),
    { seed: 1 },
  );
});

test('any figures are put in order, equal ones as they were', () => {
  fc.assert(
    fc.property(figures, (list) => {
      const of = Float64Array.from(list, (one) => 1000 * one - 500);
      const order = Int32Array.from(list.keys());
      sortStably(order, new Int32Array(of.length), of, of.length);
      expect([...order]).toEqual(expected(of));
    }),
    { seed: 2 },
  );
});
