/** A plan with what its scenario tells beyond the line; days that hold under other conditions become those of the line. */

import { type CropCourse, cropCourse, cropDays } from '../../models/physical/crop-course.js';
import type { DatedAir, PhysicalPlan } from '../../models/physical/plan.js';
import type { CropPlan, Growing, Plan } from '../../models/plan.js';
import { failure, type Result, success } from '../../models/result.js';
import * as route from '../../models/route.js';
import type { FaultDraft } from '../faults.js';
import type { Scenario } from '../schema.js';
import { courseFault, refusalFault, spellFault } from './growth-faults.js';
import { physicalPlan } from './plan.js';

/**
 * @param line the plan of the line, with the days that the scenario tells
 * @returns the line's plan itself where nothing is told beyond it; faults where what is told cannot be: no growth leads to a head,
 * or the growth model refuses
 */
export function withPhysical(scenario: Scenario, line: Plan): Result<Plan, FaultDraft> {
  const physical = physicalPlan(scenario, line);
  if (physical === null) return success(line);
  const faults: FaultDraft[] = [];
  const crops = line.crops.map((crop, c) => {
    const grown = grownUnder(scenario, line, physical, c);
    if (grown.ok) return grown.value;
    faults.push(...grown.faults);
    return crop;
  });
  return faults.length > 0 ? failure(faults) : success({ ...line, crops, physical });
}

/** Crop `c` with the days that hold in the line. */
function grownUnder(
  scenario: Scenario,
  line: Plan,
  physical: PhysicalPlan,
  c: number,
): Result<CropPlan, FaultDraft> {
  const crop = line.crops[c]!;
  const course = cropCourse(line, physical, c);
  if (course === null) return success(crop);
  if (!course.ok) return failure(course.faults.map((fault) => courseFault(scenario, c, fault)));
  const days = physical.climate && cropDays(physical, c, course.value, physical.climate);
  if (days === null) return success(crop);
  if (!days.ok)
    return failure(oncePerPlace(days.faults.map((refusal) => refusalFault(scenario, c, refusal))));
  const faults: FaultDraft[] = [];
  const spells = physical.climate!.dated.flatMap((spell): SpellRatios[] => {
    const then = cropDays(physical, c, course.value, spell.air)!;
    if (then.ok) return [{ ...spell, ratios: then.value.ratios }];
    faults.push(...then.faults.map((refusal) => spellFault(scenario, c, refusal, spell)));
    return [];
  });
  if (faults.length > 0) return failure(oncePerPlace(faults));
  return success(withRatios(crop, course.value, days.value.ratios, spells));
}

/** A spell with other air, and the ratios of the days then. */
interface SpellRatios extends Pick<DatedAir, 'from' | 'beyond'> {
  readonly ratios: readonly number[];
}

/** Air by day stands for night and germination where nobody told of them: one slip, one fault. */
function oncePerPlace(drafts: readonly FaultDraft[]): FaultDraft[] {
  const places = drafts.map(({ path }) => JSON.stringify(path));
  return drafts.filter((_, i) => places.indexOf(places[i]!) === i);
}

/**
 * Growth after a cut has the last stage's ratio.
 * @param ratios of the stages of the course, in the usual air
 * @param spells with other air
 */
function withRatios(
  crop: CropPlan,
  { stages }: CropCourse,
  ratios: readonly number[],
  spells: readonly SpellRatios[],
): CropPlan {
  const lengthened = (growing: Growing, s: number): Growing => {
    const i = stages.indexOf(s);
    if (i < 0) return growing;
    const { time } = growing;
    const ratio = ratios[i]!;
    const others = spells
      .map(({ from, beyond, ratios: then }) => ({ from, beyond, times: then[i]! / ratio }))
      .filter(({ times }) => times !== 1);
    return {
      ...growing,
      time: { ...time, days: time.days * ratio, times: time.times.map((days) => days * ratio) },
      ...(others.length > 0 && { spells: others }),
    };
  };
  return {
    ...crop,
    stages: crop.stages.map(lengthened),
    regrow: crop.regrow && lengthened(crop.regrow, route.last(crop)),
  };
}
