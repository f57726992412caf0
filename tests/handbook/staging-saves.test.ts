/**
 * What staging saves, for the two published schedules of lettuce (sources: tests/handbook/lettuce-schedule.test.ts), from transplanting on:
 * space-time 0.6235 and 0.4715 m2 days a head, 27.3 and 25.3 % less than at the final spacing for the same days. With the same
 * efficiency a plant with a wide hole from the start is ready about a day earlier, so the honest saving is less.
 */

import { describe, expect, test } from 'vitest';
import { atWidest, staged } from '../../sim/models/physical/one-spacing.js';
import { type Leaf, leafOf } from '../../sim/models/physical/tissue.js';
import { CORNELL, LEAF, type LettuceCourse, RUTGERS, solved } from '../support/lettuce-courses.js';
import { expectNear } from '../support/near.js';

/** Both ways for a course, from its second stage on, at 2.5 umol/J. */
function bothWays(course: LettuceCourse, leaf: Leaf = LEAF) {
  const { endG, efficiency } = solved(course, leaf);
  const stages = course.stages.slice(1).map((stage, i) => ({
    ...stage,
    endG: endG[i + 1]!,
    kwhPerHoleDay: (stage.areaM2 * stage.dli) / 0.0036 / 2500,
  }));
  return { close: staged(leaf, endG[0]!, stages), wide: atWidest(leaf, endG[0]!, stages, efficiency) };
}

describe.each([
  [
    RUTGERS,
    { m2Days: 0.6235, mol: 10.5988, kwh: 1.1776, onLeaves: 6.964 },
    { days: 22.963, m2Days: 0.8201, kwh: 1.5491, mol: 13.942 },
    27.3,
    24,
  ],
  [
    CORNELL,
    { m2Days: 0.4715, mol: 8.0157, kwh: 0.8906, onLeaves: 6.0564 },
    { days: 22.612, m2Days: 0.5951, kwh: 1.124, mol: 10.116 },
    25.3,
    20.8,
  ],
])('$name', (course, knownClose, knownWide, sameDays, honest) => {
  const { close, wide } = bothWays(course);
  /** Known to the last digit that is printed: four decimals or fewer. */
  const near = (found: number, known: number, decimals: number): void =>
    expect(Math.abs(found - known)).toBeLessThanOrEqual(0.5 * 10 ** -decimals + 1e-12);

  test('staged', () => {
    near(close.m2Days, knownClose.m2Days, 4);
    near(close.mol, knownClose.mol, 4);
    near(close.kwh!, knownClose.kwh, 4);
    near(close.molOnLeaves, knownClose.onLeaves, 4);
    expect(close.days).toBe(24);
  });

  test('at the widest spacing from the start: ready earlier, with the same light on its leaves', () => {
    near(wide.days, knownWide.days, 3);
    near(wide.m2Days, knownWide.m2Days, 4);
    near(wide.kwh!, knownWide.kwh, 4);
    near(wide.mol, knownWide.mol, 3);
    expectNear(wide.molOnLeaves, close.molOnLeaves, 1e-12);
  });

  test('what staging saves', () => {
    const { areaM2 } = course.stages.at(-1)!;
    near(100 * (1 - close.m2Days / (24 * areaM2)), sameDays, 1);
    near(100 * (1 - close.kwh! / wide.kwh!), honest, 1);
  });
});

test.each([
  [RUTGERS, 20.6, 25.9],
  [CORNELL, 16.1, 23.6],
])(
  'over the disputed constants $name saves %s to %s %: extinction 0.5 to 0.66, leaf of 250 to 450 cm2/g',
  (course, least, most) => {
    const saves = (sla: number, extinction: number): string => {
      const { close, wide } = bothWays(course, leafOf(sla, extinction));
      return (100 * (1 - close.m2Days / wide.m2Days)).toFixed(1);
    };
    expect(saves(450, 0.66)).toBe(least.toFixed(1));
    expect(saves(250, 0.5)).toBe(most.toFixed(1));
  },
);

test('where lamps are not told, what they draw is not told', () => {
  const stage = { ...CORNELL.stages[0]!, endG: 1, kwhPerHoleDay: null };
  expect(staged(LEAF, 0.1, [stage]).kwh).toBeNull();
});
