/**
 * Two lines without luck, everything told of them: their seasons can be followed on paper, and their figures are known
 * (worked-values.ts).
 */

import { type CropCourse, cropCourse, cropDays } from '../../sim/models/physical/crop-course.js';
import type { CropMatter, PhysicalPlan } from '../../sim/models/physical/plan.js';
import type { Plan } from '../../sim/models/plan.js';
import { crop, every, grow, line, stage, time, visitDays } from './plans.js';
import { pricesWith, TANK, WORK } from './told.js';

/** A line, what is told of it, and the courses of its crops. */
export interface Clockwork {
  readonly plan: Plan;
  readonly physical: PhysicalPlan;
  readonly courses: readonly CropCourse[];
  /** Days under the line's conditions over the days that were told, by crop and stage. */
  readonly ratios: readonly (readonly number[])[];
}

const LETTUCE = { dry: 0.05, slaCm2G: 350, seedMg: 1, emergeDays: null, left: 0.3, regrowDays: null };

/** Days told that hold as the line is. */
function days(days: number): CropMatter['stages'][number] {
  return { days, readyG: null, daysAt: null };
}

/** One crop in a tray and two channels, six weeks, tended daily. */
export function oneCrop(): Clockwork {
  return clockwork(
    ([lettuce]) =>
      line(
        [
          { ...stage('tray', 8), holeAreaCm2: 25 },
          { ...stage('channel', 4, 1), channels: 2, holeAreaCm2: 400 },
        ],
        [
          crop([grow(time(12.5 * lettuce![0]!)), grow(time(16.25 * lettuce![1]!))], every(5, 42, 3), {
            headG: 120,
          }),
        ],
        { weeks: 6, visits: visitDays(6) },
      ),
    {
      stages: [
        {
          lamps: { ppfd: 150, hours: 16, power: { kind: 'made', efficacy: 2.5, reaches: 1 } },
          channelSize: null,
        },
        {
          lamps: { ppfd: 250, hours: 16, power: { kind: 'made', efficacy: 2.5, reaches: 0.8 } },
          channelSize: null,
        },
      ],
      crops: [{ ...LETTUCE, stages: [days(12.5), days(16.25)] }],
      climate: {
        airC: 22,
        nightC: 19,
        humidity: 65,
        nightHumidity: 65,
        co2: 600,
        germinationC: 22,
        altitudeM: 0,
        dated: [],
      },
      waterScale: 1,
      waterMetered: false,
      tank: TANK,
      tiers: [],
      work: WORK,
      prices: pricesWith([{ seed: 0.03, sale: { per: 'head', price: 2.5 } }]),
    },
  );
}

/**
 * Two crops, one of them cut twice, twelve weeks, tended twice a week; days told under other conditions, metered lamps, a tank that is
 * changed, water scaled to a meter, some height above the sea, tiers.
 */
export function twoCrops(): Clockwork {
  const told = { co2: 500, nightC: 18, airC: 22 };
  return clockwork(
    ([lettuce, basil]) =>
      line(
        [
          { ...stage('tray', 12), holeAreaCm2: 25 },
          { ...stage('channel', 4, 2), channels: 3, holeAreaCm2: 400 },
        ],
        [
          crop([grow(time(12.5 * lettuce![0]!)), grow(time(20.25 * lettuce![1]!))], every(7, 84, 3), {
            name: 'lettuce',
            headG: 120,
          }),
          crop([grow(time(15.75 * basil![0]!)), grow(time(18.5 * basil![1]!))], every(14, 84, 2), {
            name: 'basil',
            headG: 30,
            cuts: 2,
            regrow: grow(time(11.5 * basil![1]!)),
          }),
        ],
        { weeks: 12, visits: visitDays(12, [1, 0, 0, 1, 0, 0, 0]) },
      ),
    {
      stages: [
        {
          lamps: { ppfd: 160, hours: 18, power: { kind: 'metered', watts: 12 } },
          channelSize: { lengthCm: 50, widthCm: 30, heightCm: 6, filmMm: 3, kg: 1.2 },
        },
        {
          lamps: { ppfd: 240, hours: 16, power: { kind: 'made', efficacy: 2.6, reaches: 0.85 } },
          channelSize: { lengthCm: 120, widthCm: 10, heightCm: 5, filmMm: 2, kg: 2 },
        },
      ],
      crops: [
        {
          ...LETTUCE,
          stages: [
            { ...days(12.5), daysAt: { ...told, ppfd: 140, hours: 18, germinationC: 20 } },
            { ...days(20.25), daysAt: { ...told, ppfd: 200, hours: 16, germinationC: 27 } },
          ],
        },
        {
          dry: 0.08,
          slaCm2G: 300,
          seedMg: 1.5,
          emergeDays: 5,
          left: 0.4,
          regrowDays: 11.5,
          stages: [
            days(15.75),
            {
              ...days(18.5),
              daysAt: { ppfd: 240, hours: 14, airC: 23.5, nightC: 20, co2: 500, germinationC: 27 },
            },
          ],
        },
      ],
      climate: {
        airC: 23.5,
        nightC: 20,
        humidity: 60,
        nightHumidity: 70,
        co2: 500,
        germinationC: 27,
        altitudeM: 300,
        dated: [],
      },
      waterScale: 1.2,
      waterMetered: true,
      tank: {
        litres: 52,
        fullL: 46,
        lowL: 15,
        ec: 1.5,
        topUpEc: 2.8,
        uptakeEc: null,
        pipesL: 3,
        heldMl: 20,
        changeDays: 16,
      },
      tiers: [
        { name: 'top', stage: 1, channels: 2, ratedKg: 40, lampsKg: 5, otherKg: 0, plugG: 30 },
        { name: 'seedlings', stage: 0, channels: 1, ratedKg: null, lampsKg: 0, otherKg: 2, plugG: 15 },
      ],
      work: WORK,
      prices: pricesWith([
        { seed: 0.03, sale: { per: 'head', price: 2.5 } },
        { seed: 0.02, sale: { per: 'kg', price: 30 } },
      ]),
    },
  );
}

/** @param planOf the line, from the ratios of days by crop and stage */
function clockwork(
  planOf: (ratios: readonly (readonly number[])[]) => Plan,
  physical: PhysicalPlan,
): Clockwork {
  const told = planOf(physical.crops.map((matter) => matter!.stages.map(() => 1)));
  const courses = told.crops.map((_, c) => {
    const course = cropCourse(told, physical, c);
    if (!course?.ok) throw new Error(`no course: ${JSON.stringify(course)}`);
    return course.value;
  });
  const ratios = courses.map((course, c) => {
    const growing = cropDays(physical, c, course, physical.climate!);
    if (growing === null) return course.stages.map(() => 1);
    if (!growing.ok) throw new Error(`refused: ${JSON.stringify(growing.faults)}`);
    return growing.value.ratios;
  });
  return { plan: planOf(ratios), physical, courses, ratios };
}
