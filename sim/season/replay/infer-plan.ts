/**
 * A plan inferred from nothing but a log, where no scenario is given.
 *
 * Holes of a stage: the most that ever stood in it at once, a lower bound. Visits: the dates of the log. Growing times and
 * losses: what was seen, the mean wait for a visit taken off the stays. Nothing is inferred of cleaning, of how long ready
 * plants keep, and of when sowings were due.
 */

import { largest } from '../../engine/lists.js';
import { Moments } from '../../engine/tally.js';
import type { CropPlan, Growing } from '../../models/plan.js';
import { meanWaitForVisit } from '../../models/visits.js';
import { barePlan } from '../history/bare-plan.js';
import { type CohortsByStage, cohortsOf } from '../history/cohorts.js';
import { type LoggedSeason, loggedSeason } from '../history/logged-season.js';
import { occupancy } from '../history/occupancy.js';
import type { LogRow } from '../log/rows.js';

/** Shortest mean time [d] and smallest spread that is inferred. */
const SHORTEST = 0.5;
const LEAST_SPREAD = 0.05;

/**
 * The season of a log whose plan is not known.
 * @param rows at least one, in the order of their dates
 * @param stages names of the stages in their order
 */
export function inferredSeason(rows: readonly LogRow[], stages: readonly string[]): LoggedSeason {
  const bare = barePlan(rows, stages);
  const framing = loggedSeason(rows, bare, false);
  if (!framing.ok) throw new Error('a log lies within the season that was made for it');
  const season = framing.value;
  const cohorts = cohortsOf(season);
  const most = occupancy(season, cohorts, []).map(({ standing }) => largest(standing, 1));
  const wait = meanWaitForVisit(bare);
  const plan = {
    ...bare,
    stages: bare.stages.map((stage, s) => ({ ...stage, holesPerChannel: most[s]! })),
    crops: bare.crops.map((crop, c) => seenCrop(crop, c, cohorts, wait)),
  };
  return { ...season, plan };
}

function seenCrop(crop: CropPlan, c: number, cohorts: CohortsByStage, wait: number): CropPlan {
  const seen = crop.stages.map((growing, s) => {
    const stays = new Moments();
    let came = 0;
    let lost = 0;
    for (const cohort of cohorts[s]!) {
      if (cohort.crop !== c) continue;
      came += cohort.count;
      for (const { to, count, end } of cohort.stays) {
        if (end === 'failed' || end === 'died') lost += count;
        else if (cohort.since === null && (end === 'on' || end === 'picked'))
          for (let i = 0; i < count; i++) stays.add(to - cohort.from);
      }
    }
    const loss = came === 0 ? 0 : lost / came;
    if (stays.count === 0) return { ...growing, loss };
    const days = Math.max(SHORTEST, stays.mean - wait);
    const deviation = stays.count < 2 ? 0 : Math.sqrt(stays.variance);
    const spread = Math.min(2, Math.max(LEAST_SPREAD, deviation / days));
    return { ...growing, time: { shape: 'lognormal' as const, days, spread, times: [] }, loss };
  });
  // In the first stage dead seedlings and failed seeds are one thing in a log.
  const [first, ...later] = seen as [Growing, ...Growing[]];
  return { ...crop, germination: 1 - first.loss, stages: [{ ...first, loss: 0 }, ...later] };
}
