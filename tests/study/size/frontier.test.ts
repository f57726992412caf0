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
  test('is the first offer from which on 1 % more cost brings less than 0.5 % more', () => {
    // From 20 on: 1.5 more for 10 more, where 9 / 20 are had for each: a third of it.
    expect(kneeAt(offers([10, 4], [20, 9], [30, 10.5], [40, 11], [50, 12]))).toEqual({
      at: 1,
      // The line from (10, 4) to (50, 12) rises by 8. At 20 it is at 6, and 9 is 3 above it.
      height: 3 / 8,
      up_to: 0.45,
      beyond: expect.closeTo(0.15, 12),
    });
  });

  test('is where heads stop rising, when more room brings nothing at all', () => {
    const knee = kneeAt(offers([10, 4], [20, 8], [30, 12], [40, 12], [50, 11]));
    expect(knee).toEqual({ at: 2, height: 0.5, up_to: 0.4, beyond: 0 });
  });

  test('looks past a flat stretch behind which room pays again', () => {
    // From 20 to 30 nothing, from 20 to 40 a gain of all its share.
    expect(kneeAt(offers([10, 4], [20, 8], [30, 8.1], [40, 16], [50, 16]))).toMatchObject({ at: 3 });
  });

  test('is none on a straight line, or where heads rise ever faster', () => {
    expect(kneeAt(offers([10, 4], [20, 6], [30, 8]))).toBeNull();
    expect(kneeAt(offers([10, 4], [20, 5], [30, 12]))).toBeNull();
  });

  test('is none where it may lie below the smallest or beyond the largest', () => {
    expect(kneeAt(offers([10, 99], [20, 100], [50, 100]))).toBeNull();
    expect(kneeAt(offers([10, 4], [20, 8], [30, 12]))).toBeNull();
  });

  test('is none where there is one offer, or no more room than one size has', () => {
    expect(kneeAt(offers([10, 4]))).toBeNull();
    expect(kneeAt(offers([10, 4], [10, 5]))).toBeNull();
    expect(kneeAt(offers([10, 4], [20, 4]))).toBeNull();
    expect(kneeAt(offers([10, 0], [20, 0]))).toBeNull();
  });

  test('does not move with the range that is tried', () => {
    let found = 0;
    const steps = fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 4, maxLength: 12 });
    fc.assert(
      fc.property(steps, fc.nat(12), fc.nat(3), (rises, longer, fewer) => {
        // Ever less for each channel more; then nothing.
        const falling = [...rises].sort((a, b) => b - a);
        let gain = 0;
        const curve = [...falling, ...new Array<number>(longer + 1).fill(0)].map((rise, k): Offer => {
          gain += rise;
          return { cost: 9 * (k + 1), gain };
        });
        const whole = kneeAt(curve);
        const short = kneeAt(curve.slice(0, falling.length + 1));
        if (whole === null) expect(short).toBeNull();
        else expect(short).toMatchObject({ at: whole.at, up_to: whole.up_to, beyond: whole.beyond });
        if (whole === null || fewer >= whole.at) return;
        found++;
        expect(kneeAt(curve.slice(fewer))!.at).toBe(whole.at - fewer);
      }),
      { numRuns: 500, seed: 3 },
    );
    expect(found).toBeGreaterThan(100);
  });

  test('does not depend on the units', () => {
    const points = offers([10, 4], [20, 7], [30, 9], [40, 10], [60, 10.5]);
    const scaled = points.map(({ cost, gain }) => ({ cost: 0.04 * cost, gain: 1000 * gain }));
    expect(kneeAt(scaled)!.at).toBe(kneeAt(points)!.at);
    expect(kneeAt(scaled)!.height).toBeCloseTo(kneeAt(points)!.height, 12);
  });
});
