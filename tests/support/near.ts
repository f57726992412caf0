/** Numbers that must agree to some digits. */

import { expect } from 'vitest';

/** Assert that `found` is `known` within a relative tolerance; where 0 is known, within 1e-12. @param what of which it is told */
export function expectNear(found: number, known: number, tolerance: number, what = ''): void {
  const off = Math.abs(found - known);
  const allowed = known === 0 ? 1e-12 : tolerance * Math.abs(known);
  expect(off <= allowed, `${what}: ${found} for ${known}, at most ${allowed} off`).toBe(true);
}

/** The same of figures by name; each that is known must be found. */
export function expectAllNear(
  found: object,
  known: Readonly<Record<string, number>>,
  tolerance: number,
): void {
  for (const [name, value] of Object.entries(known)) {
    expectNear((found as Record<string, number>)[name] ?? Number.NaN, value, tolerance, name);
  }
}
