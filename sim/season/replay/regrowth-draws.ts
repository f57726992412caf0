/**
 * What plants of a crop with several cuts were seen to do between two picks, in the order of the picks.
 *
 * At one visit the plant that has been ready longest is picked first, whatever picks it has given already.
 */

import { groupedBy } from '../../engine/lists.js';
import { sortStably } from '../../engine/stable-sort.js';
import { GrowingTime } from '../../models/growing-time.js';
import * as route from '../../models/route.js';
import type { Cohort, CohortsByStage, Stay } from '../history/cohorts.js';
import type { LoggedSeason } from '../history/logged-season.js';
import type { Readiness } from '../history/readiness.js';
import { drawsOfCohorts, ObservedDraws } from './observed-draws.js';

/** Plants that were picked and grew again: columns with one entry a plant. */
interface Picked {
  /** Day of the pick [d from the start]. */
  readonly day: Float64Array;
  /** Picks that it had given before. */
  readonly phase: Uint8Array;
  /** When it became ready [d from the start]. */
  readonly ready: Float64Array;
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
  const picked = pickedOf([
    {
      cohorts: ofCrop(cohorts[route.last(crop)]!),
      times: first.times,
      time: GrowingTime.of(crop.stages[route.last(crop)]!),
    },
    { cohorts: regrown, times: byLot.times, time: GrowingTime.of(crop.regrow) },
  ]);
  const { length } = picked.day;
  const order = Int32Array.from({ length }, (_, plant) => plant);
  const scratch = new Int32Array(length);
  // By day, and those of a day by when they were ready.
  sortStably(order, scratch, picked.ready, length);
  sortStably(order, scratch, picked.day, length);

  const next = placesByPick(regrown);
  const draws = new ObservedDraws(length, name);
  order.forEach((plant, k) => {
    const from = next(picked.day[plant]!, picked.phase[plant]! + 1);
    draws.times[k] = byLot.times[from]!;
    draws.moments[k] = byLot.moments[from]!;
  });
  return draws;
}

/** Some lots, and the times that their plants took, one after the other. */
interface Timed {
  readonly cohorts: readonly Cohort[];
  readonly times: Float64Array;
  readonly time: GrowingTime;
}

/** Those that grew again. */
function pickedOf(timed: readonly Timed[]): Picked {
  let length = 0;
  for (const { cohorts } of timed)
    for (const { stays } of cohorts) for (const stay of stays) if (growsAgain(stay)) length += stay.count;
  const day = new Float64Array(length);
  const phase = new Uint8Array(length);
  const ready = new Float64Array(length);
  let told = 0;
  for (const { cohorts, times, time } of timed) {
    let at = 0;
    for (const cohort of cohorts) {
      for (const stay of cohort.stays) {
        if (growsAgain(stay)) {
          day.fill(stay.to, told, told + stay.count);
          phase.fill(cohort.phase, told, told + stay.count);
          for (let i = 0; i < stay.count; i++) ready[told + i] = time.whenGrown(cohort.from, times[at + i]!);
          told += stay.count;
        }
        at += stay.count;
      }
    }
  }
  return { day, phase, ready };
}

function growsAgain({ end, vacates }: Stay): boolean {
  return end === 'picked' && !vacates;
}

/**
 * Where the plants of some lots stand that grow again, counted through the lots in their order.
 * @returns asked for a plant that grows again from a day on and has given so many picks: the place of the next such one
 */
function placesByPick(cohorts: readonly Cohort[]): (day: number, phase: number) => number {
  let beyond = 0;
  const rows = cohorts.map(({ from, phase, count }) => {
    const first = beyond;
    beyond += count;
    return { key: keyOf(from, phase), next: first, beyond };
  });
  const byPick = new Map(
    [...groupedBy(rows, ({ key }) => key)].map(([key, ofPick]) => [key, { ofPick, at: 0 }]),
  );
  return (day, phase) => {
    // Plants of a pick can be as many as its rows: none is looked at again once its plants are told.
    const pick = byPick.get(keyOf(day, phase))!;
    while (pick.ofPick[pick.at]!.next === pick.ofPick[pick.at]!.beyond) pick.at++;
    return pick.ofPick[pick.at]!.next++;
  };
}

function keyOf(day: number, phase: number): string {
  return `${day} ${phase}`;
}
