/**
 * What plants of a crop with several cuts were seen to do between two picks, in the order of the picks.
 *
 * At one visit the plant that has been ready longest is picked first, whatever picks it has given already.
 */

import { groupedBy } from '../../engine/lists.js';
import * as route from '../../models/route.js';
import type { Cohort, CohortsByStage } from '../history/cohorts.js';
import type { LoggedSeason } from '../history/logged-season.js';
import type { Readiness } from '../history/readiness.js';
import { drawsOfCohorts, ObservedDraws } from './observed-draws.js';

/** A plant that was picked and grew again. */
interface Picked {
  /** Day of the pick [d from the start]. */
  readonly day: number;
  /** Picks that it had given before. */
  readonly phase: number;
  /** When it became ready [d from the start]. */
  readonly ready: number;
}

/**
 * @param first draws of the crop in the last stage, before the first pick
 * @returns null if no plant of the crop was seen to grow again
 */
export function regrowthDraws(
  { plan }: LoggedSeason,
  cohorts: CohortsByStage,
  readiness: Readiness,
  c: number,
  first: ObservedDraws | null,
): ObservedDraws | null {
  const crop = plan.crops[c]!;
  const ofCrop = (list: readonly Cohort[]): Cohort[] => list.filter((cohort) => cohort.crop === c);
  const regrown = ofCrop(cohorts[plan.stages.length]!);
  if (crop.regrow === null || first === null || regrown.length === 0) return null;

  const name = [crop.name, 'regrowth'];
  const byLot = drawsOfCohorts(regrown, name, readiness, crop.regrow);
  const picked = [
    ...pickedOf(ofCrop(cohorts[route.last(crop)]!), first.times),
    ...pickedOf(regrown, byLot.times),
  ].sort((a, b) => a.day - b.day || a.ready - b.ready);
  /** Places in `byLot` of those that grow again from a day on, by picks given. */
  const grown = regrown.flatMap(({ from, phase, count }) =>
    new Array<string>(count).fill(`${from} ${phase}`),
  );
  const places = groupedBy([...grown.keys()], (place) => grown[place]!);
  const draws = new ObservedDraws(picked.length, name);
  picked.forEach(({ day, phase }, k) => {
    const from = places.get(`${day} ${phase + 1}`)!.shift()!;
    draws.times[k] = byLot.times[from]!;
    draws.moments[k] = byLot.moments[from]!;
  });
  return draws;
}

/** Those of some lots that grew again. @param times that the plants of the lots took, one after the other */
function pickedOf(cohorts: readonly Cohort[], times: Float64Array): Picked[] {
  let at = 0;
  return cohorts.flatMap(({ stays, phase, from }) =>
    stays.flatMap(({ to, count, end, vacates }) => {
      const own = times.subarray(at, at + count);
      at += count;
      return end !== 'picked' || vacates
        ? []
        : Array.from(own, (time) => ({ day: to, phase, ready: from + time }));
    }),
  );
}
