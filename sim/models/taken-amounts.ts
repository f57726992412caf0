/** Litres, kilograms, minutes and kWh from the figures of what was taken (takes.ts), be it in a season or in a part of one. */

import { type LineMatter, pickL, plantL } from './physical/line-matter.js';
import type { WorkTimes } from './physical/plan.js';
import { type WorkMinutes, workMinutes } from './physical/work.js';
import { holesOf, type Plan } from './plan.js';
import type { TakesColumns } from './takes.js';

/** The figures, by column. */
export interface Taken {
  readonly columns: TakesColumns;
  readonly of: (column: number) => number;
}

/** Litres. */
export interface WaterTaken {
  /** transpired + picked + standing + thrown out - seeds */
  readonly used: number;
  readonly transpired: number;
  readonly picked: number;
  /** In plants that stand at the end; of a part of a season how many more that are than at its beginning. */
  readonly standing: number;
  readonly thrownOut: number;
  readonly seeds: number;
}

/** @param matter of a plan of which it is told what plants drink */
export function waterTaken(plan: Plan, matter: LineMatter, { columns, of }: Taken): WaterTaken {
  const sum = (all: readonly unknown[], litres: (i: number) => number): number =>
    all.reduce((total: number, _, i) => total + litres(i), 0);
  const transpired = sum(plan.stages, (s) => of(columns.transpired(s)));
  const picked = sum(plan.crops, (c) => of(columns.picked(c)) * pickL(matter, c));
  const seeds = sum(
    plan.crops,
    (c) => of(columns.sown(c)) * plantL(matter, c, matter.courses[c]!.curves[0]!.fromG),
  );
  const standing = of(columns.standing);
  const thrownOut = of(columns.thrownOut);
  return {
    used: transpired + picked + standing + thrownOut - seeds,
    transpired,
    picked,
    standing,
    thrownOut,
    seeds,
  };
}

/** Fresh mass of what was picked [kg]; crops without the mass of a head weigh nothing. */
export function pickedKg({ crops }: Plan, { columns, of }: Taken): number {
  return crops.reduce((sum, { headG }, c) => sum + (of(columns.picked(c)) * (headG ?? 0)) / 1000, 0);
}

/** @param visits how many there were */
export function minutesTaken(
  { crops }: Plan,
  times: WorkTimes,
  { columns, of }: Taken,
  visits: number,
): WorkMinutes {
  const ofCrops = (column: (c: number) => number): number =>
    crops.reduce((sum, _, c) => sum + of(column(c)), 0);
  return workMinutes(times, {
    sown: ofCrops((c) => columns.sown(c)),
    moved: of(columns.moved),
    picked: ofCrops((c) => columns.picked(c)),
    cleared: of(columns.cleared),
    cleaned: of(columns.cleaned),
    visits,
  });
}

/** What the lamps of a stage draw in so many days [kWh]; null where it is not told. */
export function lampsKwh(plan: Plan, matter: LineMatter, stage: number, days: number): number | null {
  const perHoleDay = matter.stages[stage]!.kwhPerHoleDay;
  return perHoleDay === null ? null : perHoleDay * holesOf(plan.stages[stage]!) * days;
}

/** What the lamps draw in so many days [kWh]; null where it is not told of all stages that have any. */
export function lineKwh(plan: Plan, matter: LineMatter, days: number): number | null {
  const lit = matter.physical.stages.flatMap(({ lamps }, s) =>
    lamps === null ? [] : [lampsKwh(plan, matter, s, days)],
  );
  return lit.length === 0 ? null : sumIfAll(lit);
}

/** The sum of all parts; null if one is not known. */
export function sumIfAll(parts: readonly (number | null)[]): number | null {
  return parts.reduce((sum, part) => (sum === null || part === null ? null : sum + part), 0 as number | null);
}
