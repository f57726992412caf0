/**
 * Moist air and the water of leaves against what was published.
 *
 * FAO Irrigation and Drainage Paper 56 (Allen et al. 1998): Example 3 (seen); Table 2.3 and Example 2 (from memory; their equations
 * seen). Graamans et al. 2017, Agricultural Systems 153:138-147: equations and constants seen in public restatements, the paper not.
 */

import { describe, expect, test } from 'vitest';
import {
  pressureKpa,
  psychrometricKpa,
  saturationKpa,
  vapourDeficitKpa,
} from '../../sim/models/physical/moist-air.js';
import { AIR_RESISTANCE, hourlyWater, stomatalResistance } from '../../sim/models/physical/transpiration.js';
import { expectNear } from '../support/near.js';

describe('saturation vapour pressure', () => {
  test.each([
    [15, 1.705],
    [24.5, 3.075],
  ])('at %s degC: %s kPa (outside, Example 3)', (airC, published) => {
    expect(Math.abs(saturationKpa(airC) - published)).toBeLessThan(0.001);
  });

  test.each([
    [1, 0.657],
    [10, 1.228],
    [20, 2.338],
    [25, 3.168],
    [30, 4.243],
  ])('at %s degC: %s kPa (outside, Table 2.3)', (airC, published) => {
    expect(Math.abs(saturationKpa(airC) - published)).toBeLessThan(0.001);
  });
});

test('at 1800 m the air weighs 81.8 kPa, and the psychrometric constant is 0.054 (outside, Example 2)', () => {
  expect(Math.abs(pressureKpa(1800) - 81.8)).toBeLessThan(0.05);
  expect(Math.abs(psychrometricKpa(1800) - 0.054)).toBeLessThan(0.0005);
});

test.each([
  [23, 75, 0.702],
  [24, 60, 1.194],
])('at %s degC and %s % the air lacks %s kPa (equation)', (airC, humidity, known) => {
  expect(Math.abs(vapourDeficitKpa(airC, humidity) - known)).toBeLessThan(0.002);
});

test.each([
  [0, 450],
  [200, 255],
  [300, 216],
  [500, 171.4],
])('stomata at %s umol resist %s s/m (equation)', (ppfd, known) => {
  expect(Math.abs(stomatalResistance(ppfd) - known)).toBeLessThan(0.1);
});

test('the air at a leaf resists what leaves of 0.11 m in 0.15 m/s and three layers make of it (equation)', () => {
  expect(Math.abs((350 * Math.sqrt(0.11 / 0.15)) / 3 - AIR_RESISTANCE)).toBeLessThan(0.1);
});

/**
 * Water of a closed canopy [g m-2 h-1] with the leaf's temperature solved for, from the same equations before they are made linear:
 * three layers of leaf, 0.95 covered.
 */
function energyBalance(ppfd: number, airC: number, humidity: number): number {
  const vapour = (kpa: number, celsius: number): number =>
    (1000 * kpa * 18.015) / (8.314 * (celsius + 273.15));
  const net = (0.95 * 0.95 * ppfd) / 4.6;
  const air = vapour(saturationKpa(airC) * (humidity / 100), airC);
  const evaporates = (leafC: number): number =>
    (3 * 2450 * (vapour(saturationKpa(leafC), leafC) - air)) / (stomatalResistance(ppfd) + AIR_RESISTANCE);
  let [low, high] = [airC - 10, airC + 10];
  for (let i = 0; i < 60; i++) {
    const leafC = (low + high) / 2;
    const warms = (3 * 1.2 * 1006 * (leafC - airC)) / AIR_RESISTANCE;
    if (warms + evaporates(leafC) > net) high = leafC;
    else low = leafC;
  }
  return (evaporates((low + high) / 2) * 3600) / 2450;
}

test.each([
  [200, 22, 70, 131.5, 128.688],
  [300, 23, 75, 137.8, 136.062],
  [0, 23, 75, 71.1, 69.1795],
])(
  '%s umol, %s degC, %s %: %s g of water per m2 and hour; the linear form is within 3 % (equation)',
  (ppfd, airC, humidity, known, linear) => {
    expectNear(energyBalance(ppfd, airC, humidity), known, 0.01);
    const { cover, leaf } = hourlyWater(ppfd, airC, humidity, 0);
    expectNear(1000 * (0.95 * cover + 3 * leaf), known, 0.03);
    expectNear(1000 * (0.95 * cover + 3 * leaf), linear, 1e-5);
  },
);
