/** What a plant takes in the line's stages, beside the same plant at the widest spacing from its beginning on. Names are those of JSON. */

import { daysBetween } from '../../models/physical/course.js';
import { type CropCourse, cropDays } from '../../models/physical/crop-course.js';
import type { LineMatter } from '../../models/physical/line-matter.js';
import { atWidest } from '../../models/physical/one-spacing.js';
import type { Plan } from '../../models/plan.js';

/** Of a head from a plant that nothing happens to: it neither waits nor dies. */
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
  /** Heads that a plant gives, where it is cut several times: each has an equal share of what the plant takes. */
  readonly picks?: number;
  readonly one_spacing: SpaceFigures;
}

/** What a plant takes from seed to its last cut; kWh null: not told. */
interface PlantTakes {
  readonly days: number;
  readonly m2Days: number;
  readonly kwh: number | null;
}

/** Of crops whose course is known and whose holes are not all alike. */
export function stagingOf(plan: Plan, matter: LineMatter): StagingFigures[] {
  const price = matter.physical.prices?.kwh ?? null;
  return plan.crops.flatMap(({ name, cuts }, c) => {
    const course = matter.courses[c]!;
    if (course === null || course.told.every(({ areaM2 }) => areaM2 === course.told[0]!.areaM2)) return [];
    const wide = wideFromTheStart(plan, matter, c, course);
    // A crop that grows again in the dark is one for which no light tells how long it takes elsewhere.
    if (cuts > 1 && !Number.isFinite(wide.days)) return [];
    const aHead = ({ days, m2Days, kwh }: PlantTakes): SpaceFigures => ({
      days: days / cuts,
      m2_days: m2Days / cuts,
      kwh: kwh === null ? null : kwh / cuts,
      cost: kwh === null || price === null ? null : (kwh * price) / cuts,
    });
    return [
      {
        crop: name,
        ...(cuts > 1 && { picks: cuts }),
        ...aHead(asPlanned(plan, matter, c, course)),
        one_spacing: aHead(wide),
      },
    ];
  });
}

function asPlanned({ crops }: Plan, matter: LineMatter, c: number, { told }: CropCourse): PlantTakes {
  const { stages: growing, cuts, regrow } = crops[c]!;
  const stays = told.map(({ stage, areaM2 }) => ({ stage, areaM2, days: growing[stage]!.time.days }));
  // Between two cuts it stands where it is picked.
  if (regrow !== null) stays.push({ ...stays.at(-1)!, days: (cuts - 1) * regrow.time.days });
  let [days, m2Days, kwh] = [0, 0, 0 as number | null];
  for (const stay of stays) {
    days += stay.days;
    m2Days += stay.areaM2 * stay.days;
    const draw = matter.stages[stay.stage]!.kwhPerHoleDay;
    kwh = kwh === null || draw === null ? null : kwh + draw * stay.days;
  }
  return { days, m2Days, kwh };
}

/** The same plant in the widest stage throughout, in its light; between two cuts as efficient as it is then where it is picked. */
function wideFromTheStart(
  { crops }: Plan,
  { physical, stages: matter }: LineMatter,
  c: number,
  course: CropCourse,
): PlantTakes {
  const { leaf, told, curves, efficiencies, regrow, regrowEfficiency } = course;
  const widest = told.reduce((wide, stage) => (stage.areaM2 > wide.areaM2 ? stage : wide));
  const draw = matter[widest.stage]!.kwhPerHoleDay;
  const grown = atWidest(
    leaf,
    curves[0]!.fromG,
    told.map((stage, i) => ({
      ...stage,
      endG: curves[i]!.toG,
      kwhPerHoleDay: matter[stage.stage]!.kwhPerHoleDay,
    })),
    efficiencies.at(-1)!,
  );
  const again =
    regrow === null
      ? 0
      : (crops[c]!.cuts - 1) * daysBetween(leaf, widest, regrowEfficiency!, regrow.fromG, regrow.toG);
  // Days are worked out in the light in which the scenario's days hold; the line's own are these times the ratio.
  const now = physical.climate && cropDays(physical, c, course, physical.climate);
  const ratio = now?.ok === true ? now.value.ratios[told.indexOf(widest)]! : 1;
  return {
    days: (grown.days + again) * ratio,
    m2Days: (grown.m2Days + widest.areaM2 * again) * ratio,
    kwh: grown.kwh === null || draw === null ? null : (grown.kwh + draw * again) * ratio,
  };
}
