/** What each of the next weeks takes: litres, minutes, kilograms, money. */

import { type LineMatter, lineMatter } from '../../models/physical/line-matter.js';
import { anyCost, costsOf, totalCost } from '../../models/physical/money.js';
import { hoursOf } from '../../models/physical/work.js';
import { holesOfLine, type Plan, visitDays } from '../../models/plan.js';
import { lineKwh, minutesTaken, pickedKg, type Taken, waterTaken } from '../../models/taken-amounts.js';
import { TakesColumns } from '../../models/takes.js';
import type { Watch } from './watcher.js';

/** What a week of one future takes. A figure of which the plan tells too little is null. */
export interface WeekTaken {
  /** Litres that plants use: given off, or in them. */
  readonly used_l: number | null;
  /** Minutes of work, the visits themselves included. */
  readonly minutes: number | null;
  readonly picked_kg: number | null;
  /** What it costs, in the money of the prices: the parts whose price is told. */
  readonly cost: number | null;
}

/** @param from first day of the first week [d from the start] @returns null where the plan tells of nothing but holes */
export function watchTakes(plan: Plan, from: number, weeks: number): (() => TakesEar) | null {
  const matter = lineMatter(plan);
  if (matter === null) return null;
  const columns = new TakesColumns(plan, matter);
  const takesAt = Array.from({ length: weeks + 1 }, (_, week) => from + 7 * week);
  const visits = visitDays(plan);
  return () => {
    const heard: Float64Array[] = [];
    return {
      takesAt,
      onTakes: (_, taken) => void heard.push(Float64Array.from(taken)),
      taken: () =>
        takesAt.slice(1).map((to, week) => {
          const [before, by] = [heard[week]!, heard[week + 1]!];
          const taken: Taken = { columns, of: (column) => by[column]! - before[column]! };
          const there = visits.filter((day) => day >= to - 7 && day < to).length;
          return weekTaken(plan, matter, taken, there);
        }),
    };
  };
}

/** Hears what a future takes. */
export interface TakesEar {
  readonly takesAt: readonly number[];
  readonly onTakes: (t: number, taken: Float64Array) => void;
  /** Week by week, when the future is over. */
  readonly taken: () => WeekTaken[];
}

/** A watch that hears what a future takes as well; null: it does not. */
export function withTakes<Seen extends object>(
  watch: Watch<Seen>,
  ear: TakesEar | null,
): Watch<Seen & { readonly takes: readonly WeekTaken[] | null }> {
  return {
    ...watch,
    ...(ear && { takesAt: ear.takesAt, onTakes: ear.onTakes }),
    end: () => ({ ...watch.end(), takes: ear?.taken() ?? null }),
  };
}

function weekTaken(plan: Plan, matter: LineMatter, taken: Taken, visits: number): WeekTaken {
  const { work, prices } = matter.physical;
  const minutes = work && 60 * hoursOf(minutesTaken(plan, work, taken, visits));
  const used_l = matter.drinks ? waterTaken(plan, matter, taken).used : null;
  const { columns, of } = taken;
  const costs =
    prices &&
    costsOf(prices, {
      kwh: lineKwh(plan, matter, 7),
      litres: used_l,
      sown: plan.crops.map((_, c) => of(columns.sown(c))),
      picked: plan.crops.map((_, c) => of(columns.picked(c))),
      hours: minutes === null ? null : minutes / 60,
      holes: holesOfLine(plan),
      days: 7,
    });
  return {
    used_l,
    minutes,
    picked_kg: plan.crops.some(({ headG }) => headG !== null) ? pickedKg(plan, taken) : null,
    cost: costs && anyCost(costs) ? totalCost(costs) : null,
  };
}
