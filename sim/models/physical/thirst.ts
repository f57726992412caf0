/** How thirsty a line can be: all its holes growing what takes most, and the ready plant that wilts first. */

import { type Growing, holesOf, type Plan } from '../plan.js';
import type { CoverCurve } from './cover.js';
import type { CropCourse } from './crop-course.js';
import type { PhysicalPlan } from './plan.js';
import type { ThirstyPlant } from './pump-stop.js';
import { type AirStretch, timesOn } from './spells.js';
import { readyL, stayL } from './stay-water.js';
import { plantWaterMl } from './tissue.js';
import { type StageWater, stageWater } from './transpiration.js';

/** A kind of stay that a hole can hold. */
export interface HoleStay {
  readonly curve: CoverCurve;
  /** Mean days, under the line's conditions [d]. */
  readonly days: number;
  /** Dry share of the crop's fresh mass. */
  readonly dry: number;
}

/** A stage, and what can stand in it. */
export interface ThirstyStage {
  readonly holes: number;
  readonly water: StageWater;
  readonly stays: readonly HoleStay[];
}

/**
 * What can stand in each stage.
 * @param plan whose growing times hold under the line's conditions
 * @param courses of its crops; null where a crop's is not known
 * @param stretch of the season in whose air; null: as usual
 * @returns null without humidity
 */
export function thirstyStages(
  plan: Pick<Plan, 'stages' | 'crops'>,
  { stages, climate }: Pick<PhysicalPlan, 'stages' | 'climate'>,
  courses: readonly (CropCourse | null)[],
  stretch: Pick<AirStretch, 'from' | 'air'> | null = null,
): ThirstyStage[] | null {
  const air = stretch?.air ?? climate;
  const daysOf = (growing: Growing): number =>
    growing.time.days * (stretch === null ? 1 : timesOn(growing, stretch.from));
  const thirsty: ThirstyStage[] = [];
  for (const [s, stage] of plan.stages.entries()) {
    const water = air === null ? null : stageWater(stages[s]!.lamps ?? { ppfd: 0, hours: 0 }, air);
    if (water === null) return null;
    const stays = courses.flatMap((course, c): HoleStay[] => {
      const place = course?.stages.indexOf(s) ?? -1;
      if (course === null || place < 0) return [];
      const { dry, curves, regrow } = course;
      const { stages: growing, regrow: again } = plan.crops[c]!;
      const stay = { curve: curves[place]!, days: daysOf(growing[s]!), dry };
      const isLast = place === curves.length - 1;
      return isLast && regrow !== null ? [stay, { curve: regrow, days: daysOf(again!), dry }] : [stay];
    });
    thirsty.push({ holes: holesOf(stage), water, stays });
  }
  return thirsty;
}

/** Litres a day with every hole growing the thirstiest of its stays, with the water that stays in plants. */
export function everyHoleGrowingL(stages: readonly ThirstyStage[], scale: number): number {
  return stages.reduce((sum, { holes, water, stays }) => {
    const takes = stays.map(({ curve, days, dry }) => {
      const inPlants = plantWaterMl(curve.toG - curve.fromG, dry) / 1000;
      return scale * stayL(curve, water.day, 1, 1) + inPlants / days;
    });
    return sum + holes * Math.max(0, ...takes);
  }, 0);
}

/** What a plant needs that is ready, of every kind that can stand in the line, with the lamps on or off. */
export function readyPlants(
  stages: readonly ThirstyStage[],
  lamps: 'on' | 'off',
  scale: number,
): ThirstyPlant[] {
  return stages.flatMap(({ water, stays }) =>
    stays.map(({ curve, dry }) => ({
      mlPerHour: 1000 * scale * readyL(curve, water[lamps]),
      waterMl: plantWaterMl(curve.toG, dry),
    })),
  );
}
