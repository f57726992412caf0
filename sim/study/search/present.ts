/** The plan that a search names, if nobody were away: the same seasons, and what they bring. */

import { neverAway } from '../../seasons/changes.js';
import type { Pause } from '../../seasons/gather.js';
import { SeasonRunner } from '../../seasons/season-runner.js';
import { type CountedSeasons, SeasonCounter } from './season-counter.js';
import type { Search } from './setup.js';

/**
 * @param place of the plan
 * @param seasons how many
 * @returns null if nobody is away in it, or if stopped
 */
export async function presentSeasons(
  { ranked, counting, workload }: Search,
  place: number,
  seasons: number,
  pause?: Pause,
): Promise<CountedSeasons | null> {
  const { plan } = ranked[place]!.candidate;
  const present = neverAway(plan);
  if (present === plan) return null;
  const runner = new SeasonRunner({ ...workload, jobs: [{ plan: present, seasons, trials: 0 }] });
  let done = 0;
  const picks = await runner.weeks(0, 0, seasons, (runs) => {
    done += runs;
    return pause?.(done, seasons) ?? null;
  });
  if (picks === null) return null;
  const counter = new SeasonCounter(counting);
  for (let season = 0; season < seasons; season++) counter.add(picks, season);
  return counter.toData();
}
