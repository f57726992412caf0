/**
 * Light, cover and lamps against what was published.
 *
 * Daily light: SAE 2004, salad crops for the space station, prints 8.6, 17.2 and 26 (seen). Nursery of the Cornell handbook (Brechner &
 * Both): 250 umol m-2 s-1 for 24 h (secondary copy seen). Expolinear growth: Goudriaan & Monteith 1990 (from memory). The rest is
 * arithmetic.
 */

import { describe, expect, test } from 'vitest';
import { logistic, softplus } from '../../sim/engine/softplus.js';
import { CoverCurve } from '../../sim/models/physical/cover.js';
import { dailyLight, kwhPerHoleDay } from '../../sim/models/physical/light.js';
import type { LampPlan } from '../../sim/models/physical/plan.js';
import { leafOf } from '../../sim/models/physical/tissue.js';
import { expectNear } from '../support/near.js';

describe('daily light', () => {
  test.each([
    [150, 8.64, 8.6],
    [300, 17.28, 17.2],
    [450, 25.92, 26],
  ])('%s umol for 16 h are %s mol/m2, published as %s (outside)', (ppfd, exact, published) => {
    expectNear(dailyLight(ppfd, 16), exact, 1e-9);
    expect(Math.abs(dailyLight(ppfd, 16) - published)).toBeLessThan(0.1);
  });

  test('of the Cornell nursery: 21.6 mol/m2', () => {
    expectNear(dailyLight(250, 24), 21.6, 1e-9);
  });
});

describe('lamps', () => {
  const lamps = (ppfd: number, efficacy: number, reaches = 1): LampPlan => ({
    ppfd,
    hours: 16,
    power: { kind: 'made', efficacy, reaches },
  });

  test('300 umol at 2.5 umol/J draw 1.92 kWh a square metre in 16 h', () => {
    expectNear(kwhPerHoleDay(lamps(300, 2.5), 1, 1)!, 1.92, 1e-12);
  });

  test('260 umol at 2.7 umol/J of which 0.9 reaches the holes', () => {
    expectNear(kwhPerHoleDay(lamps(260, 2.7, 0.9), 1, 1)!, 1.71193415638, 1e-9);
  });

  test.each([
    [29, 3.83],
    [21, 5.29],
  ])('heads of %s g a mol take %s kWh a kilogram at 2.5 umol/J', (gramsPerMol, published) => {
    const kilograms = (dailyLight(300, 16) * gramsPerMol) / 1000;
    expect(Math.abs(kwhPerHoleDay(lamps(300, 2.5), 1, 1)! / kilograms - published)).toBeLessThan(0.01);
  });

  test('a meter knows all lamps of the stage, whatever its holes are', () => {
    const metered: LampPlan = { ppfd: 160, hours: 18, power: { kind: 'metered', watts: 12 } };
    expectNear(kwhPerHoleDay(metered, null, 12)!, 0.018, 1e-12);
  });

  test('a dark stage draws nothing; of lamps of which too little is told nobody knows', () => {
    expect(kwhPerHoleDay({ ppfd: 0, hours: 16, power: null }, null, 4)).toBe(0);
    expect(kwhPerHoleDay({ ppfd: 100, hours: 16, power: null }, 0.04, 4)).toBeNull();
    expect(kwhPerHoleDay(lamps(100, 2.5), null, 4)).toBeNull();
  });
});

test.each([
  [0.9, 1, 0.593],
  [0.66, 3, 0.862],
])(
  'Beer and Lambert: with an extinction of %s, %s layers of leaf catch %s of the light (equation)',
  (k, layers, share) => {
    const leaf = leafOf(350, k);
    const curve = new CoverCurve(leaf, 1, 0.01, layers / leaf.m2PerG);
    expectNear(curve.leafLayers(1), layers, 1e-12);
    expect(Math.abs(curve.cover(1) - share)).toBeLessThan(0.001);
  },
);

describe('expolinear growth (equation)', () => {
  /** g/m2 after t days, with the most growth C [g m-2 d-1], the most relative growth R [1/d] and the lost time [d]. */
  const expolinear = (c: number, r: number, lost: number, t: number): number =>
    (c / r) * softplus(r * (t - lost));

  test.each([
    [0, 0.165],
    [10, 3.2392],
    [20, 46.2098],
    [30, 203.239],
    [40, 400.165],
  ])('day %s: %s g/m2', (t, known) => {
    expect(Math.abs(expolinear(20, 0.3, 20, t) - known)).toBeLessThan(2.5e-4);
  });

  test('the NASA crop of 28 days, to which it was fitted', () => {
    expect(Math.abs(expolinear(25.3, 0.4311, 21.096, 28) - 177.6)).toBeLessThan(0.1);
  });

  test('a stay is a piece of it: its mass a square metre grows with most growth C where light of d mol/m2 falls', () => {
    const leaf = leafOf(350);
    const curve = new CoverCurve(leaf, 0.04, 0.05, 8);
    // The climb of L is R x days, and mass a square metre is C/R x softplus; so C = R x days/(a x area) over the days.
    const perG = (leaf.extinction * leaf.m2PerG) / 0.04;
    const start = Math.log(Math.expm1(perG * 0.05));
    const climb = Math.log(Math.expm1(perG * 8)) - start;
    for (const u of [0.2, 0.6, 0.9]) {
      expectNear(curve.massG(u), expolinear(climb / perG, climb, -start / climb, u), 1e-12);
      expectNear(curve.cover(u), logistic(start + climb * u), 1e-12);
    }
  });
});
