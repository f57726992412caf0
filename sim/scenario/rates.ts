/** How many seeds and visits a week a scenario asks for: what its cadences come to in the long run, without any season. */

import { daysIn } from './plan.js';
import type { Scenario } from './schema.js';

/**
 * Seeds that fall due in a week, all crops together. Of sowings on dates: the mean of the season.
 * @returns null if a crop is refilled: what it is sown then depends on the season
 */
export function seedsAWeek({ crops, start, weeks }: Scenario): number | null {
  let seeds = 0;
  for (const { sow } of crops) {
    if ('refill' in sow) return null;
    if ('every' in sow) seeds += (7 * sow.seeds) / sow.every;
    else if ('on' in sow) seeds += sow.seeds * sow.on.length;
    else seeds += (sow.seeds * daysIn(sow.dates, start, weeks * 7).length) / weeks;
  }
  return seeds;
}

/** Visits in a week without absences. @returns null if somebody is always there */
export function visitsAWeek({ visits }: Scenario): number | null {
  if (visits === 'always') return null;
  return visits === 'daily' ? 7 : visits.length;
}
