/** At which visits everything that was ready could go on, and at which it could not. */

import * as route from '../../models/route.js';
import type { LoggedSeason } from './logged-season.js';
import type { StageDays } from './occupancy.js';

/** Of one stage, one entry a visit: 1 if after it ready plants may have been left where they stood. */
export type ShortVisits = Uint8Array;

/**
 * After a visit that left holes free in the next stage nothing ready is left in the stage before it. In the last stage
 * the same holds after a visit at which fewer heads were picked than were wanted, or if no number is wanted.
 */
export function shortVisits(
  season: LoggedSeason,
  stages: readonly StageDays[],
  visits: readonly number[],
): ShortVisits[] {
  const wanted = wantedLeft(season);
  return stages.map((_, s) => {
    const next = route.next(season.plan, s);
    return Uint8Array.from(visits, (day) => {
      const free = next < 0 ? wanted(day) : stages[next]!.empty[day]!;
      return free > 0 ? 0 : 1;
    });
  });
}

/** Heads that were wanted on a day and not picked; Infinity if no number is wanted. */
function wantedLeft({ plan, events }: LoggedSeason): (day: number) => number {
  const { want } = plan;
  if (want === null) return () => Infinity;
  const left = new Map(want.days.map((day) => [day, want.heads]));
  for (const { action, day, count } of events) {
    if (action === 'pick') left.set(day, (left.get(day) ?? 0) - count);
  }
  return (day) => left.get(day) ?? 0;
}
