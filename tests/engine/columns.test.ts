import { expect, test } from 'vitest';
import { Columns } from '../../sim/engine/columns.js';

test('columns that are made anew are in the memory of those before, one by one, as far as it reaches', () => {
  const columns = new Columns();
  const [a, b] = [columns.make(Float64Array, 4), columns.make(Uint8Array, 10)];
  expect(a.buffer).not.toBe(b.buffer);
  columns.reset();
  const [c, d] = [columns.make(Int32Array, 5), columns.make(Uint8Array, 11)];
  expect([c.buffer === a.buffer, c.length]).toEqual([true, 5]);
  expect([d.buffer === b.buffer, d.length]).toEqual([false, 11]);
});
