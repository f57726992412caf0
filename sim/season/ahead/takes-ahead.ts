/** What the coming weeks take, by week: lamps, water, work, harvest, money. */

import { assumptions, litresFactor, STARTS_EMPTY } from '../../models/physical/assumes.js';
import { lineMatter } from '../../models/physical/line-matter.js';
import type { Plan } from '../../models/plan.js';
import { lineKwh } from '../../models/taken-amounts.js';
import { costsUntold } from '../../models/untold-costs.js';
import { type Forecast, forecastOf } from './forecast.js';
import type { WeekTaken } from './takes-watch.js';

export interface TakesAhead {
  readonly weeks: readonly WeekTakes[];
  /** Litres are good to this factor; null once the grower's own meter has scaled them. */
  readonly good_to_factor: number | null;
  /** What was taken for granted. */
  readonly assumes: readonly string[];
}

/** A mean over the futures with its standard error (null of one future), and the range from 10 to 90 % of them. */
export type TakesRange = Pick<Forecast, 'mean' | 'se' | 'p10' | 'p50' | 'p90'>;

/** What a week takes. A figure for which the scenario tells too little is null. */
export interface WeekTakes {
  /** ISO date of its first day. */
  readonly start: string;
  /** Lamps [kWh]: the same in every future, for they burn over every hole, full or empty. */
  readonly kwh: number | null;
  /** Litres that plants use, not those that are topped up. */
  readonly used_l: TakesRange | null;
  /** Minutes of work, the visits themselves included. */
  readonly minutes: TakesRange | null;
  readonly picked_kg: TakesRange | null;
  /** In the money of the prices. */
  readonly cost: TakesRange | null;
}

/** Why litres are those that plants use. */
const TANK_UNTOLD =
  'How full a tank is now and when it was filled anew is not told, so litres are those that plants use: top up as much, and add what a new filling needs.';

/**
 * @param seen of each future, at least one; null where the plan tells of nothing but holes
 * @param starts of the weeks, ISO dates
 */
export function takesAhead(
  plan: Plan,
  seen: readonly (readonly WeekTaken[] | null)[],
  starts: readonly string[],
): TakesAhead | null {
  const matter = lineMatter(plan);
  const told = seen.filter((weeks) => weeks !== null);
  if (matter === null || told.length === 0) return null;
  const figure = (week: number, of: keyof WeekTaken): TakesRange | null => {
    const values = told.map((weeks) => weeks[week]![of]).filter((value) => value !== null);
    if (values.length === 0) return null;
    // Ranges of whole numbers are for plants.
    const { mean, se, p10, p50, p90 } = forecastOf(values);
    return { mean, se, p10, p50, p90 };
  };
  const kwh = lineKwh(plan, matter, 7);
  const weeks = starts.map((start, week) => ({
    start,
    kwh,
    used_l: figure(week, 'used_l'),
    minutes: figure(week, 'minutes'),
    picked_kg: figure(week, 'picked_kg'),
    cost: figure(week, 'cost'),
  }));
  const [first] = weeks;
  if (first === undefined || Object.values(first).filter((value) => value !== null).length === 1) return null;
  const factor = litresFactor(plan);
  const water = first.used_l !== null;
  const assumes = assumptions(
    {
      light: kwh !== null,
      leaves: false,
      mass: first.picked_kg !== null,
      water,
      tank: false,
      load: false,
      work: first.minutes !== null,
      money: first.cost !== null,
    },
    factor,
    costsUntold(plan),
  ).filter((sentence) => sentence !== STARTS_EMPTY);
  return {
    weeks,
    good_to_factor: water ? factor : null,
    assumes: water && matter.physical.tank !== null ? [TANK_UNTOLD, ...assumes] : assumes,
  };
}
