/** What a plant takes in the line's stages, beside the same plant at the widest spacing from its beginning on. Names are those of JSON. */

import { cropDays } from '../../models/physical/crop-course.js';
import type { LineMatter } from '../../models/physical/line-matter.js';
import { atWidest } from '../../models/physical/one-spacing.js';
import type { Plan } from '../../models/plan.js';

/** Of a plant that nothing happens to: it neither waits nor dies. */
export interface SpaceFigures {
  readonly days: number;
  readonly m2_days: number;
  /** What the lamps over its holes draw; null: not told. */
  readonly kwh: number | null;
  /** What that costs; null without a price. */
  readonly cost: number | null;
}

export interface StagingFigures extends SpaceFigures {
  readonly crop: string;
  readonly one_spacing: SpaceFigures;
}

/** Of crops that are cut once, whose course is known and whose holes are not all alike. */
export function stagingOf(
  { crops }: Plan,
  { courses, physical, stages: matter }: LineMatter,
): StagingFigures[] {
  const told = (days: number, m2_days: number, kwh: number | null): SpaceFigures => {
    const price = physical.prices?.kwh ?? null;
    return { days, m2_days, kwh, cost: kwh === null || price === null ? null : kwh * price };
  };
  return crops.flatMap(({ name, cuts, stages: growing }, c) => {
    const course = courses[c]!;
    if (course === null || cuts > 1) return [];
    const widest = course.told.reduce((wide, stage) => (stage.areaM2 > wide.areaM2 ? stage : wide));
    if (course.told.every(({ areaM2 }) => areaM2 === widest.areaM2)) return [];
    let [days, m2Days, kwh] = [0, 0, 0 as number | null];
    for (const { stage, areaM2 } of course.told) {
      const stay = growing[stage]!.time.days;
      days += stay;
      m2Days += areaM2 * stay;
      const draw = matter[stage]!.kwhPerHoleDay;
      kwh = kwh === null || draw === null ? null : kwh + draw * stay;
    }
    const wide = atWidest(
      course.leaf,
      course.curves[0]!.fromG,
      course.told.map((stage, i) => ({
        ...stage,
        endG: course.curves[i]!.toG,
        kwhPerHoleDay: matter[stage.stage]!.kwhPerHoleDay,
      })),
      course.efficiencies.at(-1)!,
    );
    // Its days are worked out in the light in which the scenario's days hold; the line's own are these times the ratio.
    const now = physical.climate && cropDays(physical, c, course, physical.climate);
    const ratio = now?.ok === true ? now.value.ratios[course.told.indexOf(widest)]! : 1;
    return [
      {
        crop: name,
        ...told(days, m2Days, kwh),
        one_spacing: told(
          wide.days * ratio,
          wide.m2Days * ratio,
          wide.kwh === null ? null : wide.kwh * ratio,
        ),
      },
    ];
  });
}
