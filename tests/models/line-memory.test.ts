/** A line that is built in the memory of another knows nothing of it. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Columns } from '../../sim/engine/columns.js';
import { Line } from '../../sim/models/line/line.js';
import { arbitraryPlan } from '../support/arbitrary-plan.js';

test('whatever ran in its memory before, a season is the same', () => {
  fc.assert(
    fc.property(arbitraryPlan(), arbitraryPlan(), (plan, other) => {
      const columns = new Columns();
      new Line(other, { columns }).run(3, 0);
      expect(new Line(plan, { columns }).run(1, 0)).toEqual(new Line(plan).run(1, 0));
    }),
    { numRuns: 60, seed: 1 },
  );
});
