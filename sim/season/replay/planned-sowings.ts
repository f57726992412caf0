/** The sowings that a plan asks for, at the visits at which they would have been made. */

import type { LoggedSeason } from '../history/logged-season.js';
import { dailyVisits } from '../history/plan-days.js';

/** Seeds of each crop that should be sown on each day; none for crops sown by `refill`. */
export function plannedSeeds({ plan, days }: LoggedSeason): Float64Array[] {
  const visits = dailyVisits(plan);
  return plan.crops.map(({ sowing }) => {
    const seeds = new Float64Array(days);
    if (sowing.kind === 'refill') return seeds;
    let next = 0;
    for (const due of sowing.days) {
      while (next < visits.length && visits[next]! < due) next++;
      const day = visits[next];
      if (day === undefined || day >= days) continue;
      seeds[day] = sowing.seeds + (sowing.missed === 'dropped' ? 0 : seeds[day]!);
    }
    return seeds;
  });
}

/**
 * Seeds of each crop that were planned for a day and not sown then, although somebody could have: those for which there was
 * no free cell are left out. Below 0 where more was sown than was planned, as when a missed sowing is made up for.
 *
 * @param empty free cells of the first stage on each day, as the day's visit left them
 * @param missed days of planned visits on which nobody came
 */
export function seedsNotSown(
  season: LoggedSeason,
  planned: readonly Float64Array[],
  empty: Int32Array,
  missed: ReadonlySet<number>,
): Float64Array[] {
  const sown = season.plan.crops.map(() => new Float64Array(season.days));
  for (const batch of season.batches) sown[batch.crop]![batch.sown]! += batch.seeds;
  return planned.map((seeds, c) => {
    const short = new Float64Array(season.days);
    if (season.plan.crops[c]!.sowing.kind === 'refill') return short;
    let pending = 0;
    for (let day = 0; day < season.days; day++) {
      short[day] = seeds[day]! - sown[c]![day]!;
      if (missed.has(day)) {
        pending += seeds[day]!;
        continue;
      }
      if (seeds[day] === 0 && sown[c]![day] === 0) continue;
      const unsown = Math.max(0, pending + short[day]!);
      if (empty[day] === 0) short[day]! -= unsown;
      pending = 0;
    }
    return short;
  });
}
