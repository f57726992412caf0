/**
 * What plants of a crop with several cuts were seen to do between two picks, in the order of the picks.
 *
 * At one visit the plant that has been ready longest is picked first, whatever picks it has given already.
 */

import { GrowingTime } from '../../models/growing-time.js';
import * as route from '../../models/route.js';
import type { Cohort, CohortsByStage } from '../history/cohorts.js';
import type { LoggedSeason } from '../history/logged-season.js';
import { fillCohort, ObservedDraws, plantsIn } from './observed-draws.js';
import type { Readiness } from './readiness.js';

/** A plant that was picked and grew again. */
interface Picked {
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

  const byLot = new ObservedDraws(plantsIn(regrown), [crop.name, 'regrowth']);
  const time = new GrowingTime(crop.regrow.time);
  /** Plants picked on each day, and the places in `byLot` of those that grow again from then on, by picks given. */
  const picked = new Map<number, Picked[]>();
  const places = new Map<string, number[]>();
  const note = (cohort: Cohort, times: Float64Array, start: number): void => {
    let at = start;
    for (const { to, count, end, vacates } of cohort.stays) {
      for (let i = 0; i < count; i++, at++) {
        if (end !== 'picked' || vacates) continue;
        entryOf(picked, to).push({ phase: cohort.phase, ready: cohort.from + times[at]! });
      }
    }
  };
  let place = 0;
  for (const cohort of ofCrop(cohorts[route.last(crop)]!)) {
    note(cohort, first.times, place);
    place += cohort.count;
  }
  place = 0;
  for (const cohort of regrown) {
    fillCohort(byLot, place, cohort, readiness, time);
    note(cohort, byLot.times, place);
    for (let i = 0; i < cohort.count; i++) entryOf(places, `${cohort.from} ${cohort.phase}`).push(place++);
  }

  const order: number[] = [];
  for (const day of [...picked.keys()].sort((a, b) => a - b)) {
    const plants = picked.get(day)!;
    plants.sort((a, b) => a.ready - b.ready);
    for (const { phase } of plants) order.push(places.get(`${day} ${phase + 1}`)!.shift()!);
  }
  const draws = new ObservedDraws(order.length, [crop.name, 'regrowth']);
  order.forEach((from, k) => {
    draws.times[k] = byLot.times[from]!;
    draws.moments[k] = byLot.moments[from]!;
  });
  return draws;
}

function entryOf<Key, Item>(map: Map<Key, Item[]>, key: Key): Item[] {
  let list = map.get(key);
  if (list === undefined) {
    list = [];
    map.set(key, list);
  }
  return list;
}
