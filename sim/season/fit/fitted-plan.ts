/** The line with the times, losses and germination that a log tells, as far as they are sure: what a scenario would say with all of it written. */

import type { Growing, Plan } from '../../models/plan.js';
import type { FitResult } from './fit.js';
import { type FitChange, fitChangesOf } from './fit-changes.js';

/** @param plan the log's; it stays as it is */
export function fittedPlan(result: FitResult, plan: Plan): Plan {
  return fitChangesOf(result, plan).reduce(withChange, plan);
}

function withChange(plan: Plan, change: FitChange): Plan {
  const c = plan.crops.findIndex(({ name }) => name === change.crop);
  const s = plan.stages.findIndex(({ name }) => name === change.stage);
  const crop = plan.crops[c];
  if (crop === undefined) return plan;
  const withCrop = (changed: Partial<typeof crop>): Plan => ({
    ...plan,
    crops: plan.crops.with(c, { ...crop, ...changed }),
  });
  if (change.key === 'germination') return withCrop({ germination: change.value });
  const changed = changedGrowing(change.regrowth ? crop.regrow! : crop.stages[s]!, change);
  const line = withCrop(change.regrowth ? { regrow: changed } : { stages: crop.stages.with(s, changed) });
  return change.key === 'days' ? withToldDays(line, c, s, change) : line;
}

function changedGrowing(growing: Growing, { key, value, present }: FitChange): Growing {
  if (key === 'loss') return { ...growing, loss: value };
  const { spells, time, ...rest } = growing;
  if (key === 'spread') return { ...growing, time: { ...time, spread: value } };
  // Days that are told under other conditions (days_at) are those of the line but for a ratio, which hardly changes. The log's days were
  // as they were: spells are in them, and would lengthen them once more.
  return { ...rest, time: { ...time, days: (time.days * value) / present! } };
}

/** What of the course goes by the days as they are told. */
function withToldDays(plan: Plan, c: number, s: number, { regrowth, value }: FitChange): Plan {
  const { physical } = plan;
  const matter = physical?.crops[c];
  if (physical == null || matter == null) return plan;
  const changed = regrowth
    ? { ...matter, regrowDays: value }
    : { ...matter, stages: matter.stages.with(s, { ...matter.stages[s]!, days: value }) };
  return { ...plan, physical: { ...physical, crops: physical.crops.with(c, changed) } };
}
