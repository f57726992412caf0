/** The course of one crop through the stages of its line: the curves of its stays, and what its days become under the line's conditions. */

import type { CropPlan, StagePlan } from '../plan.js';
import { type Result, success } from '../result.js';
import * as route from '../route.js';
import { type CourseFault, type CourseStage, efficiencyBetween, solveCourse } from './course.js';
import { CoverCurve } from './cover.js';
import { emergenceDays, showsAt } from './emergence.js';
import { type GrowingDays, type GrowthRefusal, growingDays } from './growing-days.js';
import { dailyLight } from './light.js';
import type { Air, Conditions, CropMatter, LampPlan, PhysicalPlan } from './plan.js';
import { freshShootG, leafOf, wholeDryG } from './tissue.js';

export interface CropCourse {
  /** The stages that it passes, in order: their places in the plan. */
  readonly stages: readonly number[];
  /** A stay in each of them. */
  readonly curves: readonly CoverCurve[];
  /** Growth between two cuts; null where there is one. */
  readonly regrow: CoverCurve | null;
  /** Light use efficiency of each span [g of plant per mol on leaves], and of growth between two cuts. */
  readonly efficiencies: readonly number[];
  readonly regrowEfficiency: number | null;
  /** Fresh shoot of a plant that is ready to leave each of the stages [g]. */
  readonly readyG: readonly number[];
  /** Dry mass that a pick takes, root included [g]. */
  readonly pickG: number;
  /** Dry share of fresh mass. */
  readonly dry: number;
}

/** What of a plan a course is made of. */
export interface CoursePlan {
  readonly stages: readonly Pick<StagePlan, 'holeAreaCm2'>[];
  readonly crops: readonly Pick<CropPlan, 'headG' | 'cuts' | 'stages'>[];
}

/**
 * The course of crop `c`.
 * @param extinction of light in its leaves [-], where another than the usual one is tried
 * @returns null where too little is told: the mass of a head, the area of a hole, any light
 */
export function cropCourse(
  plan: CoursePlan,
  physical: Pick<PhysicalPlan, 'stages' | 'crops' | 'climate'>,
  c: number,
  extinction?: number,
): Result<CropCourse, CourseFault> | null {
  const crop = plan.crops[c]!;
  const matter = physical.crops[c]!;
  if (matter === null || crop.headG === null) return null;
  const places = placesOf(crop);
  if (places.every((s) => physical.stages[s]!.lamps === null)) return null;
  if (places.some((s) => plan.stages[s]!.holeAreaCm2 === null)) return null;

  const { dry, slaCm2G } = matter;
  const leaf = leafOf(slaCm2G, extinction);
  const pickG = wholeDryG(crop.headG, dry);
  const readyG = crop.cuts > 1 ? pickG / (1 - matter.left) : pickG;
  const stages = places.map((s, i): CourseStage => {
    const { days, readyG: weighed, daysAt } = matter.stages[s]!;
    const { ppfd, hours } = daysAt ?? lampsOf(physical, s);
    const warmth = (daysAt ?? physical.climate)?.germinationC ?? null;
    return {
      stage: s,
      areaM2: plan.stages[s]!.holeAreaCm2! / 1e4,
      days,
      dli: dailyLight(ppfd, hours),
      emergence: i === 0 ? emergenceDays(matter.emergeDays, warmth) : 0,
      endG: i === places.length - 1 ? readyG : weighed === null ? null : wholeDryG(weighed, dry),
    };
  });
  const solved = solveCourse(leaf, seedG(matter), stages);
  if (!solved.ok) return solved;
  const { endG, efficiencies } = solved.value;
  const fromG = (i: number): number => (i === 0 ? seedG(matter) : endG[i - 1]!);
  const last = stages.at(-1)!;
  const cutG = matter.left * readyG;
  const regrows = crop.cuts > 1;
  return success({
    stages: places,
    curves: stages.map(
      ({ areaM2, emergence, days }, i) =>
        new CoverCurve(leaf, areaM2, fromG(i), endG[i]!, showsAt(emergence, days)),
    ),
    regrow: regrows ? new CoverCurve(leaf, last.areaM2, cutG, readyG) : null,
    efficiencies,
    regrowEfficiency: regrows
      ? efficiencyBetween(leaf, { ...last, days: matter.regrowDays! }, cutG, readyG)
      : null,
    readyG: endG.map((w) => freshShootG(w, dry)),
    pickG,
    dry,
  });
}

/**
 * What the days of crop `c` become under the line's conditions.
 * @param course its course
 * @param air of the line
 * @returns null where no stage says under which conditions its days hold: then they hold
 */
export function cropDays(
  { stages: inPlan, crops }: Pick<PhysicalPlan, 'stages' | 'crops'>,
  c: number,
  { stages, curves }: CropCourse,
  air: Air,
): Result<GrowingDays, GrowthRefusal> | null {
  const matter = crops[c]!;
  if (matter === null || stages.every((s) => matter.stages[s]!.daysAt === null)) return null;
  return growingDays(
    seedG(matter),
    stages.map((s, i) => ({
      stage: s,
      areaM2: curves[i]!.areaM2,
      days: matter.stages[s]!.days,
      endG: curves[i]!.toG,
      now: conditionsOf(lampsOf({ stages: inPlan }, s), air),
      told: matter.stages[s]!.daysAt,
    })),
    matter.emergeDays,
  );
}

/** What growth depends on, as the line is. */
export function conditionsOf({ ppfd, hours }: Pick<LampPlan, 'ppfd' | 'hours'>, air: Air): Conditions {
  const { airC, nightC, co2, germinationC } = air;
  return { ppfd, hours, airC, nightC, co2, germinationC };
}

/** The light of a stage; a stage of which none is told is dark. */
function lampsOf({ stages }: Pick<PhysicalPlan, 'stages'>, s: number): Pick<LampPlan, 'ppfd' | 'hours'> {
  return stages[s]!.lamps ?? { ppfd: 0, hours: 0 };
}

/** Dry mass of what is sown in a hole [g]. */
function seedG({ seedMg }: CropMatter): number {
  return seedMg / 1000;
}

function placesOf(crop: Pick<CropPlan, 'stages'>): number[] {
  const places: number[] = [];
  for (let s = route.first(crop); s >= 0; s = route.next(crop, s)) places.push(s);
  return places;
}
