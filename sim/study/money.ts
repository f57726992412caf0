/** Money and kWh as studies of several plans tell of them: what a season costs by part, and what there is to mind beside such figures. */

import { assumptions, type Told } from '../models/physical/assumes.js';
import type { Costs } from '../models/physical/money.js';
import type { Plan } from '../models/plan.js';
import { costsUntold } from '../models/untold-costs.js';
import type { Tallies } from '../seasons/tallies.js';
import { amountsOf } from './takes/amounts.js';

const NOTHING: Told = {
  light: false,
  leaves: false,
  mass: false,
  water: false,
  tank: false,
  load: false,
  work: false,
  money: false,
};

/** What is taken for granted where of all figures only kWh of lamps are told. */
export const ASSUMED_OF_KWH: readonly string[] = assumptions({ ...NOTHING, light: true }, null, []);

/** The same where only those of money are. @param plan that is asked about: what it tells no price of is in no sum */
export function assumedOfMoney(plan: Plan): readonly string[] {
  return assumptions({ ...NOTHING, money: true }, null, costsUntold(plan));
}

/** Parts are null where there is no price, or where too little is told of what it is for. */
export type SeasonCosts = Costs & { readonly total: number };

/** What a mean season costs, by part; null without prices. */
export function seasonCosts(plan: Plan, tallies: Tallies): SeasonCosts | null {
  return amountsOf({ plan, tallies, whole: tallies })?.money?.cost ?? null;
}
