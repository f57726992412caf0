/**
 * What plants of a crop with several cuts were seen to do between two picks, in the order of the picks.
 *
 * At one visit the plant that has been ready longest is picked first, whatever picks it has given already.
 */

import { GrowingTime } from '../../models/growing-time.js';
import type { LoggedSeason } from '../history/logged-season.js';
import type { Lot, Lots } from '../history/stays.js';
import type { Readiness } from './readiness.js';
import { fillLot, plantsIn, SeenLuck } from './seen-luck.js';

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
export function regrowthLuck(
  { plan }: LoggedSeason,
  lots: Lots,
  readiness: Readiness,
  c: number,
  first: SeenLuck | null,
): SeenLuck | null {
  const crop = plan.crops[c]!;
  const stages = plan.stages.length;
  const ofCrop = (list: readonly Lot[]): Lot[] => list.filter((lot) => lot.crop === c);
  const regrown = ofCrop(lots[stages]!);
  if (crop.regrow === null || first === null || regrown.length === 0) return null;

  const byLot = new SeenLuck(plantsIn(regrown), [crop.name, 'regrowth']);
  const time = new GrowingTime(crop.regrow.time);
  /** Plants picked on each day, and the places in `byLot` of those that grow again from then on, by picks given. */
  const picked = new Map<number, Picked[]>();
  const places = new Map<string, number[]>();
  const note = (lot: Lot, times: Float64Array, start: number): void => {
    let at = start;
    for (const { to, count, end, vacates } of lot.stays) {
      for (let i = 0; i < count; i++, at++) {
        if (end !== 'picked' || vacates) continue;
        entryOf(picked, to).push({ phase: lot.phase, ready: lot.from + times[at]! });
      }
    }
  };
  let place = 0;
  for (const lot of ofCrop(lots[stages - 1]!)) {
    note(lot, first.times, place);
    place += lot.count;
  }
  place = 0;
  for (const lot of regrown) {
    fillLot(byLot, place, lot, readiness, time);
    note(lot, byLot.times, place);
    for (let i = 0; i < lot.count; i++) entryOf(places, `${lot.from} ${lot.phase}`).push(place++);
  }

  const order: number[] = [];
  for (const day of [...picked.keys()].sort((a, b) => a - b)) {
    const plants = picked.get(day)!;
    plants.sort((a, b) => a.ready - b.ready);
    for (const { phase } of plants) order.push(places.get(`${day} ${phase + 1}`)!.shift()!);
  }
  const luck = new SeenLuck(order.length, [crop.name, 'regrowth']);
  order.forEach((from, k) => {
    luck.times[k] = byLot.times[from]!;
    luck.moments[k] = byLot.moments[from]!;
  });
  return luck;
}

function entryOf<Key, Item>(map: Map<Key, Item[]>, key: Key): Item[] {
  let list = map.get(key);
  if (list === undefined) {
    list = [];
    map.set(key, list);
  }
  return list;
}
