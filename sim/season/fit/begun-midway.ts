/**
 * Batches that stood already when the log began, and were entered as if they had been sown then.
 *
 * Nothing passes a stage on the day of its sowing. So a batch that was moved on the day of its sowing stood before; and if
 * one of the log's first day did, then the others of that day, which were not moved, may have stood before too.
 */

import type { LoggedSeason } from '../history/logged-season.js';

/** @returns places of the batches */
export function begunMidway({ batches, events }: LoggedSeason): ReadonlySet<number> {
  const midway = new Set<number>();
  for (const { action, batch, day } of events) {
    if (action !== 'move') continue;
    const { sown, seeds } = batches[batch]!;
    if (seeds > 0 && sown === day) midway.add(batch);
  }
  const first = batches[0]?.sown;
  if ([...midway].some((batch) => batches[batch]!.sown === first)) {
    for (const [batch, { sown, seeds }] of batches.entries())
      if (seeds > 0 && sown === first) midway.add(batch);
  }
  return midway;
}
