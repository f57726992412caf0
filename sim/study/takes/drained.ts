/**
 * What is drained where a tank is filled anew: it is known only of the seasons in which the tank was looked at, so whatever depends on it
 * has two errors, that of all seasons with what is drained held fast, and that of what is drained.
 */

import { lineMatter } from '../../models/physical/line-matter.js';
import type { Plan } from '../../models/plan.js';
import { amountsOf, changesOf, type TakesSample } from './amounts.js';

/** Is the tank ever filled anew, and known what is drained then? */
export function drains(plan: Plan): boolean {
  const matter = lineMatter(plan);
  return matter !== null && matter.physical.tank !== null && changesOf(plan, matter) > 0;
}

/** Whether one of the seasons was looked at; true where nothing depends on it. */
export function isLookedAt({ plan, tallies }: TakesSample): boolean {
  return !drains(plan) || tallies.takes!.tankSeasons > 0;
}

/** A sample as if as much had been drained in it as in another of the same plan. */
export function drainedAs<Of extends TakesSample>(sample: Of, other: TakesSample): Of {
  if (!drains(sample.plan)) return sample;
  const litres = (of: TakesSample): number => amountsOf({ ...of, drainedMoreL: 0 })?.tank?.drained_l ?? 0;
  return { ...sample, drainedMoreL: litres(other) - litres(sample) };
}
