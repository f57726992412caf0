/**
 * What the same season would have given under another cadence, with the season's own luck.
 *
 * Growing times and losses are those that the log shows (season-draws.ts), visits those of the season (attendance.ts). Only the
 * sowings change. For comparison the season is also simulated with the sowings as they were: if the line was run as the
 * simulator runs it, that gives the season itself; where it does not, the log departs from the rules or the plan.
 */

import { daysEvery, daysOn } from '../../models/cadence.js';
import type { Weekday } from '../../models/dates.js';
import { type CropPlan, type Sowing, seasonDays } from '../../models/plan.js';
import type { LoggedSeason } from '../history/logged-season.js';
import { sowingOf } from './intended-sowings.js';
import type { SeasonDraws } from './season-draws.js';
import { departure, FAITHFUL, headsIn, planOf, simulated } from './simulated.js';

/** Another cadence, for all crops. At least one is not null, and not both `every` and `on`. */
export interface CadenceChange {
  /** Days from one sowing to the next, the first on day 0 [d]. */
  readonly every: number | null;
  readonly on: readonly Weekday[] | null;
  /** Seeds per sowing. */
  readonly seeds: number | null;
}

export interface WhatIf {
  readonly change: CadenceChange;
  /** Seeds per sowing of each crop under the change. */
  readonly seeds: Readonly<Record<string, number>>;
  /** Picks of each week: as it was, and as it would have been. */
  readonly weeks: readonly { readonly start: string; readonly was: number; readonly would: number }[];
  readonly picked: { readonly was: number; readonly would: number };
  readonly sown: { readonly was: number; readonly would: number };
  /** Picks of the season simulated with its own sowings and its own luck. */
  readonly again: number;
  /** Whether that gave the picks of each week as they were; where but some plants were followed, but for 5 % of the heads. */
  readonly faithful: boolean;
  /** Share of the draws that had not been seen, and were taken from those that had. */
  readonly resampled: number;
}

/**
 * @param weeks picks of each week as they were, with the date on which each begins
 * @param draws of the plants that are followed @param each for how many plants each of them stands
 * @param visits of the season [d]
 * @returns null if the log has no cadence to change: nothing was sown, or plants stood before it began, whose fates under
 * another cadence it does not tell
 */
export function whatIf(
  season: LoggedSeason,
  draws: SeasonDraws,
  visits: readonly number[],
  weeks: readonly { readonly start: string; readonly heads: number }[],
  change: CadenceChange,
  each: number,
): WhatIf | null {
  if (season.batches.length === 0 || season.events.some(({ action }) => action === 'stand')) return null;
  const { crops } = season.plan;
  const own = crops.map((_, c) => asItWas(season, c));
  const again = simulated(planOf(season, visits, own), draws, each);
  const changed = crops.map((crop, c) => changedSowing(season, crop, c, change));
  const would = simulated(planOf(season, visits, changed), draws, each);
  const was = weeks.map(({ heads }) => heads);
  return {
    change,
    seeds: Object.fromEntries(crops.map(({ name }, c) => [name, changed[c]!.seeds])),
    weeks: weeks.map(({ start, heads }, week) => ({ start, was: heads, would: would.weekPicks[week] ?? 0 })),
    picked: { was: headsIn(was), would: headsIn(would.weekPicks) },
    sown: { was: season.batches.reduce((sum, { seeds }) => sum + seeds, 0), would: would.sown },
    again: headsIn(again.weekPicks),
    faithful: departure(was, again.weekPicks) <= (each === 1 ? 0 : FAITHFUL * headsIn(was)),
    resampled: would.resampled,
  };
}

type Due = Extract<Sowing, { kind: 'due' }>;

/** The sowings of the log. */
function asItWas({ batches }: LoggedSeason, c: number): Due {
  const mine = batches.filter(({ crop }) => crop === c);
  return sowingOf(mine.map(({ sown, seeds }) => ({ day: sown, seeds })));
}

function changedSowing(
  season: LoggedSeason,
  crop: CropPlan,
  c: number,
  { every, on, seeds }: CadenceChange,
): Due {
  const { plan, batches } = season;
  const mine = batches.filter((batch) => batch.crop === c);
  const sown = mine.reduce((sum, batch) => sum + batch.seeds, 0);
  const planned = season.planned && crop.sowing.kind === 'due' ? crop.sowing : null;
  const days =
    every !== null
      ? daysEvery(every, seasonDays(plan))
      : on !== null
        ? daysOn(on, plan.start, seasonDays(plan))
        : (planned?.days ?? mine.map((batch) => batch.sown));
  // A crop that has no number of seeds of its own is sown as it was on average.
  return {
    kind: 'due',
    days,
    seeds: seeds ?? planned?.seeds ?? Math.round(sown / Math.max(1, mine.length)),
    ...(planned?.missed === undefined ? {} : { missed: planned.missed }),
  };
}
