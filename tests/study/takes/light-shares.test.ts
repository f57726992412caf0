/** Where the light of a line fell: shares worked by hand. */

import { describe, expect, test } from 'vitest';
import { lightShares } from '../../../sim/study/takes/light-shares.js';

const mean = (value: number) => ({ mean: value });
const none = { held: mean(0), blocked: mean(0), cleaning: mean(0), untended: mean(0), filling: mean(0) };

describe('shares of the paid-for light', () => {
  const small = {
    kwh: mean(10),
    mol: { ...none, leaves: mean(1), gaps: mean(3), dead: mean(0), unattended: mean(0), unsupplied: mean(4) },
  };
  const large = {
    kwh: mean(30),
    mol: {
      ...none,
      leaves: mean(30),
      gaps: mean(10),
      dead: mean(2),
      unattended: mean(8),
      unsupplied: mean(10),
    },
  };

  test('stages count by what their lamps draw, not by their light', () => {
    const shares = lightShares([small, large])!;
    // (10 x 1/8 + 30 x 30/60) / 40, and so on.
    expect(shares.leaves).toBeCloseTo(16.25 / 40, 14);
    expect(shares.gaps).toBeCloseTo(8.75 / 40, 14);
    expect(shares.growing).toBeCloseTo(25 / 40, 14);
    expect(shares.waiting).toBeCloseTo(5 / 40, 14);
    expect(shares.empty).toBeCloseTo(10 / 40, 14);
    expect(shares.states.unsupplied).toBeCloseTo(10 / 40, 14);
  });

  test('where what lamps draw is not known of all, by their light', () => {
    const shares = lightShares([small, { ...large, kwh: null }])!;
    expect(shares.leaves).toBeCloseTo(31 / 68, 14);
    expect(shares.empty).toBeCloseTo(14 / 68, 14);
  });

  test('without masses of heads leaves are not told from gaps, and nothing is lost', () => {
    const mol = {
      ...none,
      leaves: null,
      gaps: null,
      growing: mean(6),
      dead: mean(1),
      unattended: mean(1),
      unsupplied: mean(2),
    };
    const shares = lightShares([{ kwh: mean(5), mol }])!;
    expect(shares).toMatchObject({ leaves: null, gaps: null });
    expect([shares.growing, shares.waiting, shares.empty]).toEqual([0.6, 0.2, 0.2]);
  });

  test('a dark stage takes no part; all dark is nothing to tell', () => {
    const dark = {
      kwh: mean(0),
      mol: Object.fromEntries(Object.keys(small.mol).map((part) => [part, mean(0)])),
    };
    expect(lightShares([small, dark])).toEqual(lightShares([small]));
    expect(lightShares([dark])).toBeNull();
    expect(lightShares([{ kwh: mean(1), mol: null }])).toBeNull();
  });
});
