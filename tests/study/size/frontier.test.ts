/** The frontier of room against heads, and its knee, on points made by hand. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { frontierOf, type Offer } from '../../../sim/study/frontier.js';
import { kneeOf } from '../../../sim/study/size/knee.js';

function offers(...points: readonly (readonly [cost: number, gain: number])[]): Offer[] {
  return points.map(([cost, gain]) => ({ cost, gain }));
}

function kneeAt(points: readonly Offer[]) {
  return kneeOf(points, frontierOf(points));
}

describe('the frontier', () => {
  test('holds what no other beats, the cheapest first', () => {
    const points = offers([30, 9], [10, 4], [20, 8], [20, 7], [25, 8], [40, 8.5], [12, 3]);
    expect(frontierOf(points)).toEqual([1, 2, 0]);
  });

  test('holds the first of equal offers only', () => {
    expect(frontierOf(offers([10, 4], [10, 4], [20, 4]))).toEqual([0]);
  });

  test('of any offers: each that is left out is beaten, none that is in it is', () => {
    const point = fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 }));
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 30 }), (list) => {
        const points = offers(...list);
        const frontier = frontierOf(points);
        const beats = (a: Offer, b: Offer): boolean =>
          a.cost <= b.cost && a.gain >= b.gain && (a.cost < b.cost || a.gain > b.gain);
        points.forEach((one, i) => {
          const beaten = points.some((other) => beats(other, one));
          const twin = points.findIndex(({ cost, gain }) => cost === one.cost && gain === one.gain);
          expect(frontier.includes(i)).toBe(!beaten && twin === i);
        });
      }),
      { seed: 5 },
    );
  });
});

describe('the knee', () => {
  test('is the offer farthest above the line from the cheapest to the dearest', () => {
    // The line from (10, 4) to (50, 12) rises by 8. At 20 it is at 6, and 9 is 3 above it: 3/8. At 30: 8, and 10.5 is 2.5 above it.
    expect(kneeAt(offers([10, 4], [20, 9], [30, 10.5], [40, 11], [50, 12]))).toEqual({
      at: 1,
      height: 3 / 8,
    });
  });

  test('is where heads stop rising, when more room brings nothing at all', () => {
    // The frontier ends at 30. The line goes on to 50, the dearest that was tried: at 30 it is halfway up.
    expect(kneeAt(offers([10, 4], [20, 8], [30, 12], [40, 12], [50, 11]))).toEqual({ at: 2, height: 0.5 });
  });

  test('is none on a straight line, or where heads rise ever faster', () => {
    expect(kneeAt(offers([10, 4], [20, 6], [30, 8]))).toBeNull();
    expect(kneeAt(offers([10, 4], [20, 5], [30, 12]))).toBeNull();
  });

  test('is none where the best gives hardly more than the cheapest', () => {
    // 0.4 % and 0.6 % of the best.
    expect(kneeAt(offers([10, 99.6], [20, 100], [50, 100]))).toBeNull();
    expect(kneeAt(offers([10, 99.4], [20, 100], [50, 100]))).toMatchObject({ at: 1 });
  });

  test('is none where there is one offer, or no more room than one size has', () => {
    expect(kneeAt(offers([10, 4]))).toBeNull();
    expect(kneeAt(offers([10, 4], [10, 5]))).toBeNull();
    expect(kneeAt(offers([10, 4], [20, 4]))).toBeNull();
    expect(kneeAt(offers([10, 0], [20, 0]))).toBeNull();
  });

  test('is an offer just above a tenth of the rise, none just below', () => {
    const bent = (height: number): Offer[] => offers([0, 10], [50, 15 + 10 * height], [100, 20]);
    expect(kneeAt(bent(0.101))).toMatchObject({ at: 1 });
    expect(kneeAt(bent(0.099))).toBeNull();
  });

  test('does not depend on the units', () => {
    const points = offers([10, 4], [20, 7], [30, 9], [40, 10], [60, 10.5]);
    const scaled = points.map(({ cost, gain }) => ({ cost: 0.04 * cost, gain: 1000 * gain }));
    expect(kneeAt(scaled)!.at).toBe(kneeAt(points)!.at);
    expect(kneeAt(scaled)!.height).toBeCloseTo(kneeAt(points)!.height, 12);
  });
});
