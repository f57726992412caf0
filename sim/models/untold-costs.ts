/** Which parts of its costs a plan tells, known before any season is run. */

import { lineMatter } from './physical/line-matter.js';
import { anyCost, type Costs, costsOf, untoldCosts } from './physical/money.js';
import type { Plan } from './plan.js';
import { lineKwh } from './taken-amounts.js';

/** A number for each part that has a price and something to pay for, else null. @returns null without prices */
export function costsTold(plan: Plan): Costs | null {
  const matter = lineMatter(plan);
  if (matter === null || matter.physical.prices === null) return null;
  const none = plan.crops.map(() => 0);
  const { work, prices } = matter.physical;
  return costsOf(prices, {
    kwh: lineKwh(plan, matter, 1),
    litres: matter.drinks ? 0 : null,
    sown: none,
    picked: none,
    hours: work === null || plan.visits.kind === 'always' ? null : 0,
    holes: 0,
    days: 0,
  });
}

/** Words of the parts that are in no sum; none without prices. */
export function costsUntold(plan: Plan): string[] {
  const costs = costsTold(plan);
  return costs === null ? [] : untoldCosts(costs);
}

/** Words of the parts that have no price; none without prices. */
export function costsUnpriced({ crops, physical }: Plan): string[] {
  const prices = physical?.prices ?? null;
  if (prices === null) return [];
  const none = crops.map(() => 0);
  return untoldCosts(
    costsOf(prices, { kwh: 0, litres: 0, sown: none, picked: none, hours: 0, holes: 0, days: 0 }),
  );
}

/** Is any cost told? */
export function costIsTold(plan: Plan): boolean {
  const costs = costsTold(plan);
  return costs !== null && anyCost(costs);
}
