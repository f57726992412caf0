/** Cover of a stay: worked values (from a program that shares no code with this one), limits, quadrature. */

import { describe, expect, test } from 'vitest';
import { CoverCurve, LEAF_LAYERS } from '../../../sim/models/physical/cover.js';
import { leafOf } from '../../../sim/models/physical/tissue.js';
import { expectNear } from '../../support/near.js';

const leaf = leafOf(350);
const HEAD_G = 8.064516129032258;
/** A hole of 400 cm2, from 0.05 g to a head of 150 g fresh. */
const finishing = new CoverCurve(leaf, 0.04, 0.05, HEAD_G);
/** A cell of 16 cm2, from a seed of 1 mg to 0.02 g; the seedling shows after 35 % of the time. */
const tray = new CoverCurve(leaf, 0.0016, 0.001, 0.02, 0.35);

test('leaf of a gram of plant', () => {
  expectNear(leaf.m2PerG, 0.029946, 1e-9);
});

describe('worked values', () => {
  test.each([
    [0, 0.0214768658867, 0.05, 0.0374325, 0, 0],
    [0.25, 0.11956924447, 0.29327271008, 0.219558614402, 0.0144897265228, 0.0259267168],
    [0.5, 0.456618555805, 1.40469795096, 1.05162712099, 0.0806880591905, 0.162571021],
    [0.75, 0.838700295682, 4.20179570807, 3.14567435685, 0.24728784568, 0.660772915],
    [1, 0.969855415786, 8.06451612903, 6.0375, 0.477357887302, 1.41077292],
  ])('of the last stage at %s', (u, cover, mass, layers, light, leafTime) => {
    expectNear(finishing.cover(u), cover, 1e-9);
    expectNear(finishing.massG(u), mass, 1e-9);
    expectNear(finishing.leafLayers(u), Math.min(LEAF_LAYERS, layers), 1e-9);
    expectNear(finishing.coverTime(u), light, 1e-9);
    // Printed to nine digits.
    expectNear(finishing.leafTime(u), leafTime, 1e-8);
  });

  test.each([
    [0, 0, 0.001, 0, 0],
    [0.35, 0, 0.001, 0, 0],
    [0.5, 0.0218367015455, 0.00203388177347, 0.00235263693951, 0.00408976317],
    [1, 0.195157360859, 0.02, 0.0432352160546, 0.07889446],
  ])('of a tray at %s', (u, cover, mass, light, leafTime) => {
    expectNear(tray.cover(u), cover, 1e-9);
    expectNear(tray.massG(u), mass, 1e-9);
    expectNear(tray.coverTime(u), light, 1e-9);
    expectNear(tray.leafTime(u), leafTime, 1e-8);
  });
});

test('a dark stage has the cover with which plants come, all the time', () => {
  const dark = new CoverCurve(leaf, 0.01, 0.3, 0.3);
  const cover = 1 - Math.exp((-0.58 * leaf.m2PerG * 0.3) / 0.01);
  expectNear(dark.cover(0.7), cover, 1e-14);
  expectNear(dark.coverTime(0.7), 0.7 * cover, 1e-14);
  expectNear(dark.leafTime(0.7), (0.7 * leaf.m2PerG * 0.3) / 0.01, 1e-14);
});

/** By Simpson's rule, halved until nothing changes: corners and steep climbs too. */
function integral(f: (u: number) => number, from: number, to: number): number {
  const rule = (a: number, b: number): number => ((b - a) / 6) * (f(a) + 4 * f((a + b) / 2) + f(b));
  const refined = (a: number, b: number, whole: number, depth: number): number => {
    const middle = (a + b) / 2;
    const [left, right] = [rule(a, middle), rule(middle, b)];
    if (depth > 8 && (depth > 45 || Math.abs(left + right - whole) < 1e-15)) return left + right;
    return refined(a, middle, left, depth + 1) + refined(middle, b, right, depth + 1);
  };
  return refined(from, to, rule(from, to), 0);
}

test.each([
  ['a usual stay', new CoverCurve(leaf, 0.04, 0.05, 8)],
  ['one that hardly grows', new CoverCurve(leaf, 0.04, 2, 2.0001)],
  ['a young one that hardly grows', new CoverCurve(leaf, 0.04, 0.23, 0.2302)],
  ['one just above a short climb', new CoverCurve(leaf, 0.04, 2, 2.005)],
  ['one that hardly grows, full of leaf', new CoverCurve(leaf, 0.004, 5, 5.0001)],
  [
    'one that hardly grows, and is full of leaf midway',
    new CoverCurve(leaf, 0.01, 0.99999 / 0.99821, 1.0045),
  ],
  ['one that loses mass', new CoverCurve(leaf, 0.04, 8, 1)],
  ['a thick stand, from a seed', new CoverCurve(leaf, 1e-5, 1e-6, 50)],
  ['a tray', tray],
])('integrals are those of a quadrature: %s', (_, curve) => {
  // Just after a seedling shows: at that very moment it still counts as hidden.
  const from = curve.showsAt === 0 ? 0 : curve.showsAt + 1e-15;
  for (const u of [0.4, 0.65, 1]) {
    expectNear(
      curve.coverTime(u),
      integral((v) => curve.cover(v), from, u),
      1e-9,
    );
    // The contract asks for 1e-7; it is a closed form.
    expectNear(
      curve.leafTime(u),
      integral((v) => curve.leafLayers(v), from, u),
      1e-9,
    );
  }
});

test('a stand of any thickness overflows nothing', () => {
  const thick = new CoverCurve(leaf, 1e-9, 1e-9, 1e6);
  for (const u of [0, 0.01, 0.5, 1]) {
    expect(thick.cover(u)).toBeLessThanOrEqual(1);
    expect(Number.isFinite(thick.coverTime(u) + thick.leafTime(u) + thick.massG(u))).toBe(true);
  }
  expectNear(thick.massG(1), 1e6, 1e-12);
  expect(thick.leafTime(1)).toBeLessThanOrEqual(LEAF_LAYERS);
});
