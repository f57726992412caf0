/** The table of softplus and of its integral, against the functions themselves (tests/engine/softplus.test.ts holds these). */

import { expect, test } from 'vitest';
import { softplus, softplusIntegral } from '../../sim/engine/softplus.js';
import {
  cellsBefore,
  PER_CELL,
  polynomial,
  SPAN,
  softplusTable,
  TO_INTEGRAL,
} from '../../sim/engine/softplus-table.js';

const table = softplusTable();

function read(x: number): { soft: number; integral: number } {
  const along = cellsBefore(x);
  const cell = Math.floor(along) * PER_CELL;
  const place = along - Math.floor(along);
  return {
    soft: polynomial(table, cell, place),
    integral: polynomial(table, cell + TO_INTEGRAL, place),
  };
}

/** Places that are no knots, all over the table. */
const PLACES = Array.from({ length: 50_000 }, (_, i) => -SPAN + (2 * SPAN * (i + Math.SQRT1_2)) / 50_000);

/** Hermite's remainder, width^6/46080 of the sixth derivative, which is softplus itself where it is an exponential; rounded up. */
const BOUND = 1.3e-12;

test('softplus is right to 1.3e-12 of itself', () => {
  const off = PLACES.map((x) => Math.abs(read(x).soft / softplus(x) - 1));
  expect(Math.max(...off)).toBeLessThan(BOUND);
});

test('its integral is right to 1.3e-12 of itself', () => {
  const off = PLACES.map((x) => Math.abs(read(x).integral / softplusIntegral(x) - 1));
  expect(Math.max(...off)).toBeLessThan(BOUND);
});
