/**
 * What a plan's line is like beyond its holes, worked out once: the courses of its crops, the light and the power of its stages, the
 * water that they take.
 */

import { holesOf, type Plan, seasonDays } from '../plan.js';
import type { CoverCurve } from './cover.js';
import { type CropCourse, cropCourse } from './crop-course.js';
import { dailyLight, kwhPerHoleDay } from './light.js';
import type { Air, PhysicalPlan } from './plan.js';
import { type AirStretch, airStretches } from './spells.js';
import { plantWaterMl } from './tissue.js';
import { type StageWater, stageWater } from './transpiration.js';

export interface LineMatter {
  readonly physical: PhysicalPlan;
  /** Of each crop; null where too little is told of it. */
  readonly courses: readonly (CropCourse | null)[];
  /** Is the course of every crop known? */
  readonly grows: boolean;
  /** Of each stage. */
  readonly stages: readonly StageMatter[];
  /** Is it known what every stage gives off? */
  readonly drinks: boolean;
  /** The season in stretches of one air; empty where nothing is told of it. */
  readonly air: readonly AirStretch[];
}

export interface StageMatter {
  /** A hole [m2]; null: not told. */
  readonly areaM2: number | null;
  /** Light on a hole [mol/d]; null: nothing is told of light. */
  readonly molPerHoleDay: number | null;
  /** What the lamps over a hole draw in a day [kWh]; null: not told. */
  readonly kwhPerHoleDay: number | null;
  /** What a square metre gives off; null: no humidity is told, or a crop's course is not known. */
  readonly water: StageWater | null;
  /** The same in each of the season's stretches of one air (spells.ts); empty where `water` holds throughout, or is not known. */
  readonly waterByDate: readonly StageWater[];
}

const known = new WeakMap<Plan, LineMatter>();

/**
 * @returns null where the plan tells nothing of it
 * @throws RangeError if a crop cannot grow as told, which whoever reads a scenario refuses
 */
export function lineMatter(plan: Plan): LineMatter | null {
  const { physical } = plan;
  if (physical == null) return null;
  let matter = known.get(plan);
  if (matter === undefined) {
    matter = workOut(plan, physical);
    known.set(plan, matter);
  }
  return matter;
}

function workOut(plan: Plan, physical: PhysicalPlan): LineMatter {
  const courses = plan.crops.map(({ name }, c) => {
    const course = cropCourse(plan, physical, c);
    if (course === null) return null;
    if (!course.ok) throw new RangeError(`${name}: no course gives what is told of it`);
    return course.value;
  });
  const grows = courses.every((course) => course !== null);
  const { climate } = physical;
  const air = climate === null ? [] : airStretches(climate, seasonDays(plan));
  const stages = plan.stages.map((stage, s): StageMatter => {
    const { lamps } = physical.stages[s]!;
    const areaM2 = stage.holeAreaCm2 === null ? null : stage.holeAreaCm2 / 1e4;
    const waterIn = (told: Air): StageWater | null => (grows ? stageWater(lamps ?? DARK, told) : null);
    const water = climate && waterIn(climate);
    return {
      areaM2,
      molPerHoleDay: lamps === null || areaM2 === null ? null : areaM2 * dailyLight(lamps.ppfd, lamps.hours),
      kwhPerHoleDay: lamps && kwhPerHoleDay(lamps, areaM2, holesOf(stage)),
      water,
      waterByDate: water === null ? [] : byDate(water, air, waterIn),
    };
  });
  return { physical, courses, grows, stages, drinks: stages.every(({ water }) => water !== null), air };
}

/** What is given off in each stretch; empty if it is the same in all of them. A stretch that tells no humidity is as dry as usual. */
function byDate(
  usual: StageWater,
  air: readonly AirStretch[],
  waterIn: (air: Air) => StageWater | null,
): StageWater[] {
  const waters = air.map((stretch) => waterIn(stretch.air)!);
  const isUsual = ({ day }: StageWater): boolean =>
    day.cover === usual.day.cover && day.leaf === usual.day.leaf;
  return waters.every(isUsual) ? [] : waters;
}

/** A stage of which no light is told. */
const DARK = { ppfd: 0, hours: 0 };

/** The curve of a stay of crop `c` in stage `s`, or between two cuts where `s` lies beyond the last stage; null where there is none. */
export function curveOf(
  { courses, stages }: Pick<LineMatter, 'courses' | 'stages'>,
  c: number,
  s: number,
): CoverCurve | null {
  const course = courses[c] ?? null;
  if (course === null) return null;
  return s === stages.length ? course.regrow : (course.curves[course.stages.indexOf(s)] ?? null);
}

/** Water in a plant of crop `c` [L]. @param w its dry mass [g] */
export function plantL({ courses }: Pick<LineMatter, 'courses'>, c: number, w: number): number {
  return plantWaterMl(w, courses[c]!.dry) / 1000;
}

/** Water in a pick of crop `c` [L]. */
export function pickL(matter: Pick<LineMatter, 'courses'>, c: number): number {
  return plantL(matter, c, matter.courses[c]!.pickG);
}

/** Is there a tank of which seasons tell? Not where somebody is there at every instant, nor where it is not told what plants use. */
export function looksInTank(plan: Plan): boolean {
  const matter = lineMatter(plan);
  return matter?.drinks === true && matter.physical.tank !== null && plan.visits.kind !== 'always';
}
