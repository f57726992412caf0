/** A crop's course from a plan: what it needs, what is missing without it, and what is refused. */

import { describe, expect, test } from 'vitest';
import { type CropCourse, cropCourse, cropDays } from '../../../sim/models/physical/crop-course.js';
import type { PhysicalPlan } from '../../../sim/models/physical/plan.js';
import type { Plan } from '../../../sim/models/plan.js';
import { oneCrop, twoCrops } from '../../support/clockwork.js';
import { expectNear } from '../../support/near.js';

function courseOf(plan: Plan, physical: PhysicalPlan, c = 0): CropCourse {
  const course = cropCourse(plan, physical, c);
  if (!course?.ok) throw new Error(JSON.stringify(course));
  return course.value;
}

describe('it is not known', () => {
  const { plan, physical } = oneCrop();
  const [tray, channel] = plan.stages;

  test.each<[string, Partial<Plan>, Partial<PhysicalPlan>]>([
    ['the mass of a head', { crops: [{ ...plan.crops[0]!, headG: null }] }, {}],
    ['what the crop is like', {}, { crops: [null] }],
    ['the area of a hole', { stages: [tray!, { ...channel!, holeAreaCm2: null }] }, {}],
    ['any light', {}, { stages: physical.stages.map((stage) => ({ ...stage, lamps: null })) }],
  ])('without %s', (_, planned, told) => {
    expect(cropCourse({ ...plan, ...planned }, { ...physical, ...told }, 0)).toBeNull();
  });
});

test('a stage of whose light nothing is told is dark: the whole head grows in the other one', () => {
  const { plan, physical } = oneCrop();
  const [tray, channel] = physical.stages;
  const { curves, readyG } = courseOf(plan, { ...physical, stages: [{ ...tray!, lamps: null }, channel!] });
  expect(curves[0]!.toG).toBe(0.001);
  expect(curves[1]!.fromG).toBe(0.001);
  expectNear(readyG[1]!, 120, 1e-12);
});

test('a head that is lighter than its seed is refused with its stage', () => {
  const { plan, physical } = oneCrop();
  const crops = [{ ...physical.crops[0]!, seedMg: 10_000 }];
  expect(cropCourse(plan, { ...physical, crops }, 0)).toMatchObject({
    ok: false,
    faults: [{ kind: 'no_gain', stage: 1, fromG: 10 }],
  });
});

test('without any climate a seedling shows after 3 days', () => {
  const { plan, physical } = oneCrop();
  expectNear(courseOf(plan, { ...physical, climate: null }).curves[0]!.showsAt, 3 / 12.5, 1e-12);
});

test('after a cut it grows from what is left of it to what it was', () => {
  const { courses } = twoCrops();
  expect(courses[0]!.regrow).toBeNull();
  const { regrow, pickG, curves } = courses[1]!;
  expect(regrow!.toG).toBe(curves[1]!.toG);
  expectNear(regrow!.fromG, 0.4 * regrow!.toG, 1e-12);
  expectNear(regrow!.toG - regrow!.fromG, pickG, 1e-12);
});

describe('its days', () => {
  test('hold as they are where no stage says under which conditions', () => {
    const { physical, courses } = oneCrop();
    expect(cropDays(physical, 0, courses[0]!, physical.climate!)).toBeNull();
  });

  test('are asked of any air: in a hot spell the model refuses, and says of which stages', () => {
    const { physical, courses } = twoCrops();
    expect(cropDays(physical, 0, courses[0]!, { ...physical.climate!, airC: 33 })).toMatchObject({
      ok: false,
      faults: [
        { kind: 'outside', condition: 'air_c', stage: 0, when: 'now', found: 33 },
        { kind: 'outside', condition: 'air_c', stage: 1, when: 'now', found: 33 },
      ],
    });
  });

  test('a dark tray feels the warmth until the seedlings show', () => {
    const { plan, physical } = oneCrop();
    const dark = { ppfd: 0, hours: 0, airC: 22, nightC: 22, co2: 600 };
    const [tray, channel] = physical.stages;
    const [lettuce] = physical.crops;
    const told: PhysicalPlan = {
      ...physical,
      stages: [{ ...tray!, lamps: null }, channel!],
      crops: [
        {
          ...lettuce!,
          stages: lettuce!.stages.map((stage, s) =>
            s === 0 ? { ...stage, days: 4, daysAt: { ...dark, germinationC: 20 } } : stage,
          ),
        },
      ],
    };
    const days = cropDays(told, 0, courseOf(plan, told), { ...physical.climate!, germinationC: 25 });
    if (!days?.ok) throw new Error(JSON.stringify(days));
    // 2.75 of 4 days become 2.1306; the rest stays.
    expectNear(days.value.ratios[0]!, (47.3 / 22.2 + 4 - 2.75) / 4, 1e-12);
    expect(days.value.ratios[1]).toBe(1);
  });
});
