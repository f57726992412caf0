import fc from 'fast-check';
import { expect, test } from 'vitest';
import { apportioned, shareRows } from '../../../../cli/dashboard/rows/shares.js';
import { PLAIN } from '../../../../cli/dashboard/theme.js';
import type { HoleState } from '../../../../sim/models/ledger.js';
import { filmBy, linesOf } from '../given.js';

/** A stage of 48 holes: 37 growing, 9 empty, 2 being cleaned on day 0; all growing on day 1. */
const film = filmBy({
  stages: [{ name: 'nursery', channels: 2, holesPerChannel: 24 }],
  days: 2,
  stateOf: (day, _, hole): HoleState =>
    day === 1 || hole < 37 ? 'growing' : hole < 46 ? 'unsupplied' : 'cleaning',
});

test('a row a state: bars of all rows make up the whole, and so do the shares', () => {
  // 37, 2 and 9 of 48 in 24 columns are 18.5, 1 and 4.5: of two alike the first has one more. 77.08, 4.17 and 18.75 %: two tenths more for the first two, which lack most.
  expect(linesOf(shareRows(film, 0, 0, 3, 24, PLAIN))).toEqual([
    `${'o'.repeat(19)} 77.1 %`,
    '& 4.2 %',
    `${'_'.repeat(4)} 18.7 %`,
  ]);
});

test('with more states than rows the last row has all that are left, and nothing is missing', () => {
  expect(linesOf(shareRows(film, 0, 0, 2, 24, PLAIN))).toEqual([
    `${'o'.repeat(19)} 77.1 %`,
    `&${'_'.repeat(4)} 22.9 %`,
  ]);
  expect(linesOf(shareRows(film, 1, 0, 2, 24, PLAIN))).toEqual([`${'o'.repeat(24)} 100.0 %`, '& 0 %']);
});

test('what is hardly there is seen, and does not read as nothing or as all', () => {
  const hall = filmBy({
    stages: [{ name: 'hall', channels: 1, holesPerChannel: 9000 }],
    days: 1,
    stateOf: (_, __, hole) => (hole === 0 ? 'dead' : 'growing'),
  });
  expect(linesOf(shareRows(hall, 0, 0, 3, 10, PLAIN))).toEqual(['ooooooooo >99.9 %', 'x <0.1 %']);
});

test('places add up to what there is, each within one of its share', () => {
  fc.assert(
    fc.property(
      fc.array(fc.nat(1000), { minLength: 1 }),
      fc.integer({ min: 1, max: 1000 }),
      (amounts, places) => {
        const all = amounts.reduce((sum, amount) => sum + amount, 0);
        const shares = apportioned(amounts, places);
        expect(shares.reduce((sum, share) => sum + share, 0)).toBe(all === 0 ? 0 : places);
        for (const [i, share] of shares.entries()) {
          if (all > 0) expect(Math.abs(share - (amounts[i]! * places) / all)).toBeLessThan(1);
        }
      },
    ),
    { numRuns: 300, seed: 1 },
  );
});
