/** Money and kWh as studies of several plans tell of them: what a season costs by part, and what there is to mind beside such figures. */

import { assumptions, type Told } from '../models/physical/assumes.js';
import type { Costs } from '../models/physical/money.js';
import type { Plan } from '../models/plan.js';
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

/** What is taken for granted where of all figures only those of money are told, or only kWh of lamps. */
export const ASSUMED_OF_MONEY: readonly string[] = assumptions({ ...NOTHING, money: true }, null);
export const ASSUMED_OF_KWH: readonly string[] = assumptions({ ...NOTHING, light: true }, null);

/** Parts are null where there is no price, or where too little is told of what it is for. */
export type SeasonCosts = Costs & { readonly total: number };

/** What a mean season costs, by part; null without prices. */
export function seasonCosts(plan: Plan, tallies: Tallies): SeasonCosts | null {
  return amountsOf({ plan, tallies, whole: tallies })?.money?.cost ?? null;
}
