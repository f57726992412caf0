/** Masses and efficiencies: worked values (from a program that shares no code with this one), spans, what cannot be. */

import { describe, expect, test } from 'vitest';
import {
  type CourseStage,
  daysBetween,
  efficiencyBetween,
  isUsual,
  solveCourse,
} from '../../../sim/models/physical/course.js';
import { CoverCurve } from '../../../sim/models/physical/cover.js';
import { showsAt } from '../../../sim/models/physical/emergence.js';
import { freshShootG, wholeDryG } from '../../../sim/models/physical/tissue.js';
import { CORNELL, DRY, LEAF, RUTGERS, SEED_G, solved, THIRD } from '../../support/lettuce-courses.js';
import { expectNear } from '../../support/near.js';

describe('worked values', () => {
  test.each([
    [CORNELL, 1.32431223866, [0.81866224, 17.413529, 150], [0.45750339, 0.79346658, 0.99512024]],
    [RUTGERS, 1.15217348483, [0.75876713, 13.486886, 150], [0.43267866, 0.63944775, 0.98019776]],
    [THIRD, 1.30744835607, [0.054652206, 1.5056024, 150], [0.025194305, 0.1593432, 0.96985542]],
  ])('$name', (course, known, freshG, covers) => {
    const { endG, efficiency } = solved(course);
    expectNear(efficiency, known, 1e-8);
    for (const [i, { areaM2, days, emergence }] of course.stages.entries()) {
      // Printed to eight digits.
      expectNear(freshShootG(endG[i]!, DRY), freshG[i]!, 2e-8);
      const from = i === 0 ? SEED_G : endG[i - 1]!;
      const curve = new CoverCurve(LEAF, areaM2, from, endG[i]!, showsAt(emergence, days));
      expectNear(curve.cover(1), covers[i]!, 2e-8);
    }
  });
});

test('what is gained is the efficiency times the light on leaves, stage by stage', () => {
  const { endG, efficiency } = solved(CORNELL);
  for (const [i, { areaM2, days, dli, emergence }] of CORNELL.stages.entries()) {
    const from = i === 0 ? SEED_G : endG[i - 1]!;
    const curve = new CoverCurve(LEAF, areaM2, from, endG[i]!, showsAt(emergence, days));
    const onLeaves = areaM2 * days * dli * curve.coverTime(1);
    expectNear(efficiency * onLeaves, endG[i]! - from, 1e-12);
  }
});

test('a plant that was weighed ends a span with an efficiency of its own', () => {
  const weighed = wholeDryG(12, DRY);
  const stages = THIRD.stages.map((stage, i) => (i === 1 ? { ...stage, endG: weighed } : stage));
  const result = solveCourse(LEAF, SEED_G, stages);
  if (!result.ok) throw new Error('it can be');
  const { endG, efficiencies } = result.value;
  expect(endG[1]).toBe(weighed);
  expect(efficiencies).toHaveLength(2);
  // A table of worked values has 2.114 for the first span of this course.
  expect(efficiencies[0]!.toFixed(3)).toBe('2.114');
  expect(isUsual(efficiencies[0]!)).toBe(false);
  const last = stages[2]!;
  expectNear(efficiencies[1]!, efficiencyBetween(LEAF, last, weighed, endG[2]!), 1e-12);
  expectNear(daysBetween(LEAF, last, efficiencies[1]!, weighed, endG[2]!), last.days, 1e-12);
});

test('in a dark stage nothing is gained', () => {
  const dark: CourseStage = { stage: 1, areaM2: 0.002, days: 2, dli: 0, emergence: 0, endG: null };
  const [first, ...others] = THIRD.stages;
  const result = solveCourse(LEAF, SEED_G, [first!, dark, ...others]);
  if (!result.ok) throw new Error('it can be');
  expect(result.value.endG[1]).toBe(result.value.endG[0]);
  expectNear(result.value.efficiencies[0]!, solved(THIRD).efficiency, 1e-12);
});

describe('what no efficiency gives is refused with its stage and masses', () => {
  test('a head that is lighter than its seed', () => {
    const stages = [{ ...THIRD.stages[0]!, endG: 0.0005 }];
    expect(solveCourse(LEAF, SEED_G, stages)).toEqual({
      ok: false,
      faults: [{ kind: 'no_gain', stage: 0, fromG: SEED_G, toG: 0.0005 }],
    });
  });

  test('a span without light', () => {
    const stages = THIRD.stages.map((stage, i) =>
      i === 1 ? { ...stage, dli: 0, endG: 0.2 } : { ...stage, endG: i === 0 ? 0.1 : 8 },
    );
    expect(solveCourse(LEAF, SEED_G, stages)).toEqual({
      ok: false,
      faults: [{ kind: 'no_light', stage: 1, fromG: 0.1, toG: 0.2 }],
    });
  });

  test('a hole so small that no number tells how it is covered', () => {
    const stages = THIRD.stages.map((stage) => ({ ...stage, areaM2: 0 }));
    const { stage, endG: toG } = stages.at(-1)!;
    expect(solveCourse(LEAF, SEED_G, stages)).toEqual({
      ok: false,
      faults: [{ kind: 'no_growth', stage, fromG: SEED_G, toG }],
    });
  });

  test('a course whose end is not known breaks the contract', () => {
    expect(() => solveCourse(LEAF, SEED_G, [{ ...THIRD.stages[0]!, endG: null }])).toThrow(RangeError);
  });
});

test.each([
  [0.49, false],
  [0.5, true],
  [1.6, true],
  [1.61, false],
])('an efficiency of %s is usual: %s', (efficiency, usual) => {
  expect(isUsual(efficiency)).toBe(usual);
});
