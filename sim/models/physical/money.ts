/** What a season costs and earns, by part, in the grower's own money. A part whose price or amount is not told is null. */

import type { Prices } from './plan.js';

/** What a season took. */
export interface Amounts {
  readonly kwh: number | null;
  /** Litres that were bought: topped up, or used where there is no tank. */
  readonly litres: number | null;
  /** Seeds sown, and picks, of each crop. */
  readonly sown: readonly number[];
  readonly picked: readonly number[];
  /** Hours of work. */
  readonly hours: number | null;
  /** Holes of the line, all stages. */
  readonly holes: number;
  readonly days: number;
}

export interface Costs {
  readonly light: number | null;
  readonly water: number | null;
  readonly nutrients: number | null;
  readonly seed: number | null;
  readonly plug: number | null;
  readonly labour: number | null;
  readonly capital: number | null;
  readonly other: number | null;
}

/** What each part costs. */
export function costsOf(prices: Prices, amounts: Amounts): Costs {
  const { kwh, litres, sown, hours, holes, days } = amounts;
  return {
    light: times(kwh, prices.kwh),
    water: times(litres === null ? null : litres / 1000, prices.waterM3),
    nutrients: times(litres, prices.nutrientsL),
    seed: summed(prices.crops.map(({ seed }, c) => times(sown[c]!, seed))),
    plug: times(summed(sown), prices.plug),
    labour: times(hours, prices.hour),
    capital: times(holes * days, prices.holeDay),
    other: times(days, prices.otherDay),
  };
}

/** The sum of the parts that are told. */
export function totalCost(costs: Costs): number {
  return summed(Object.values(costs)) ?? 0;
}

/** Is any part told? Of none there is no sum: nothing is not what it costs. */
export function anyCost(costs: Costs): boolean {
  return Object.values(costs).some((part) => part !== null);
}

/** What the parts are called. */
export const COST_WORDS: Readonly<Record<keyof Costs, string>> = {
  light: 'light',
  water: 'water',
  nutrients: 'nutrients',
  seed: 'seed',
  plug: 'plugs',
  labour: 'work',
  capital: 'wear of the holes',
  other: 'other',
};

/** Words of the parts that are in no sum: no price is told, or too little of what it is for. What is `other` only its owner knows. */
export function untoldCosts(costs: Readonly<Record<keyof Costs, unknown>>): string[] {
  return (Object.keys(COST_WORDS) as (keyof Costs)[]).flatMap((part) =>
    part !== 'other' && costs[part] === null ? [COST_WORDS[part]] : [],
  );
}

/**
 * What picks earn; null where no crop's price is told.
 * @param headG fresh mass of a pick of each crop [g]; null: not told, and then nothing is sold by the kilogram
 */
export function revenueOf(
  { crops }: Prices,
  picked: readonly number[],
  headG: readonly (number | null)[],
): number | null {
  return summed(
    crops.map(({ sale }, c) => {
      if (sale === null) return null;
      return times(sale.per === 'head' ? picked[c]! : inKg(picked[c]!, headG[c]!), sale.price);
    }),
  );
}

/** What a hole costs that stands empty for a day; not what it could have earned. @param kwh of its lamps a day */
export function idleHoleDay({ kwh: price, holeDay }: Prices, kwh: number | null): number | null {
  return summed([times(kwh, price), holeDay]);
}

function inKg(picked: number, headG: number | null): number | null {
  return headG === null ? null : (picked * headG) / 1000;
}

function times(amount: number | null, price: number | null): number | null {
  return amount === null || price === null ? null : amount * price;
}

/** The sum of those that are told; null if none is. */
function summed(parts: readonly (number | null)[]): number | null {
  return parts.reduce((sum, part) => (part === null ? sum : (sum ?? 0) + part), null);
}
