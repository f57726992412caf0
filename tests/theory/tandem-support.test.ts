/**
 * The exact values that other tests lean on, against tables that were computed independently of this code.
 */

import { describe, expect, test } from 'vitest';
import { fluidSplit, tandem } from '../support/tandem.js';

/*
 * Solved twice elsewhere, as this chain and as a sparse chain of explicit states that agree to 1e-10;
 * fractions where they are known. Blocked days a plant are blocked / rate.
 */
describe('two stages of several holes, exponential times', () => {
  test.each([
    { c: [2, 1], means: [1, 1], rate: 10 / 11, blocked: 12 / 11, days: 1.2 },
    { c: [1, 2], means: [1, 1], rate: 10 / 11, blocked: 1 / 11, days: 0.1 },
    { c: [2, 2], means: [1, 1], rate: 3 / 2, blocked: 1 / 2, days: 1 / 3 },
    { c: [3, 2], means: [1, 1], rate: 366 / 203, blocked: 243 / 203, days: 243 / 366 },
    { c: [2, 3], means: [1, 1], rate: 366 / 203, blocked: 40 / 203, days: 40 / 366 },
    { c: [4, 4], means: [1, 1], rate: 284 / 87, blocked: 64 / 87, days: 64 / 284 },
    { c: [10, 10], means: [1, 1], rate: 8.7981392349, blocked: 1.2018607651 },
    { c: [4, 8], means: [14, 24], rate: 0.2585848539, blocked: 0.379812046, days: 1.4688101 },
    { c: [6, 8], means: [14, 24], rate: 0.3132367307, blocked: 1.6146857704, days: 5.15484173 },
    { c: [10, 16], means: [14, 24], rate: 0.6136845084, blocked: 1.4084168823, days: 2.29501782 },
    { c: [12, 16], means: [14, 24], rate: 0.6481410582, blocked: 2.9260251852, days: 4.51448824 },
    { c: [14, 24], means: [14, 24], rate: 0.9107842399, blocked: 1.249020642, days: 1.37136831 },
    { c: [16, 24], means: [14, 24], rate: 0.9599741646, blocked: 2.5603616961, days: 2.66711521 },
    { c: [20, 24], means: [14, 24], rate: 0.9945020724, blocked: 6.0769709859, days: 6.11056644 },
    { c: [28, 48], means: [14, 24], rate: 1.8724623774, blocked: 1.7855267171, days: 0.95357148 },
    { c: [32, 48], means: [14, 24], rate: 1.9611076332, blocked: 4.5444931348, days: 2.31730939 },
    { c: [60, 96], means: [14, 24], rate: 3.919706043, blocked: 5.1241153974 },
  ])('$c holes of $means: $rate a day, $blocked blocked', ({ c, means, rate, blocked, days }) => {
    const exact = tandem(c[0]!, c[1]!, means[0]!, means[1]!);
    // A unit of the last printed digit.
    expect(Math.abs(exact.rate - rate)).toBeLessThan(1e-10);
    expect(Math.abs(exact.blocked - blocked)).toBeLessThan(1e-10);
    if (days !== undefined) expect(Math.abs(exact.blocked / exact.rate - days)).toBeLessThan(1e-8);
    // Little's law of the growing plants of the first stage.
    expect((c[0]! - exact.blocked) / means[0]!).toBeCloseTo(exact.rate, 12);
  });

  test('single holes of mean 1: 2/3 a day', () => {
    // Hunt 1956, Operations Research 4:674 (from memory).
    expect(tandem(1, 1, 1, 1).rate).toBeCloseTo(2 / 3, 14);
  });

  test('the same seen from the other end: the two stages can be swapped', () => {
    expect(tandem(3, 7, 2, 5).rate).toBeCloseTo(tandem(7, 3, 5, 2).rate, 12);
  });
});

describe('the split of 100 m2 between 3, 14 and 24 d at 1000, 200 and 32 plants/m2', () => {
  const split = (survivals: readonly number[]) =>
    fluidSplit(100, [
      { days: 3, density: 1000, survival: survivals[0]! },
      { days: 14, density: 200, survival: survivals[1]! },
      { days: 24, density: 32, survival: survivals[2]! },
    ]);

  /** Within a unit of the last printed digit. */
  function expectNear(found: readonly number[], printed: readonly number[], digits: number): void {
    expect(found.length).toBe(printed.length);
    printed.forEach((value, i) => {
      expect(Math.abs(found[i]! - value)).toBeLessThan(10 ** -digits);
    });
  }

  test('lets 100000/823 plants a day through', () => {
    // By hand: 3/1000 + 14/200 + 24/32 = 823/1000 m2 for a plant a day.
    const { rate, areas, holes } = split([1, 1, 1]);
    expect(rate).toBeCloseTo(100_000 / 823, 10);
    expectNear(areas, [0.3645200486, 8.5054678007, 91.1300121507], 10);
    expectNear(holes, [364.5200486, 1701.09356015, 2916.16038882], 8);
  });

  test('lets 110580/961 a day through where 90, 97 and 95 % live', () => {
    const { rate, areas, sowing } = split([0.9, 0.97, 0.95]);
    expect(rate).toBeCloseTo(110_580 / 961, 10);
    expectNear(areas, [0.4162330905, 8.7408949011, 90.8428720083], 10);
    expectNear([sowing], [138.7443635102], 10);
  });
});
