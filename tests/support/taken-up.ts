/** A season that is taken up in the middle, for tests: what stands then, and the luck that is left. */

import { toGrid } from '../../sim/engine/clock.js';
import type { Draws } from '../../sim/models/growth.js';
import { growthClocks } from '../../sim/models/growth-clock.js';
import type { Cleaning, InitialState } from '../../sim/models/initial-state.js';
import { type Plan, seasonDays } from '../../sim/models/plan.js';
import type { Note } from './logs.js';
import { columnsOf, type StandingPlant } from './openings.js';
import type { Stay } from './stays.js';

/** Draws of which the first were taken already. */
export function afterTaking(draws: Draws, taken: number): Draws {
  return {
    times: draws.times,
    moments: draws.moments,
    sprouts: draws.sprouts,
    start: (seed, season) => {
      draws.start(seed, season);
      for (let i = 0; i < taken; i++) draws.take();
    },
    take: () => draws.take(),
  };
}

/** Days that the growth drawn for a stay takes. */
function daysOf(plan: Plan, { crop, stage, cuts, from, days }: Stay): number {
  const of = cuts > 0 ? plan.stages.length : stage;
  return growthClocks(plan)?.[of * plan.crops.length + crop]?.daysFor(from, days) ?? days;
}

/**
 * What stands after the visit of a day, as the record of the whole season tells; and the draws taken by then.
 * @param stays of the season; if they are given it is told how long plants stand and how long they need
 */
export function openingAt(plan: Plan, notes: readonly Note[], day: number, stays: readonly Stay[] = []) {
  const stages = plan.stages.length;
  const picks = new Map<number, number>();
  const last = new Map<number, Note>();
  const cleaning: Cleaning[] = [];
  const reached = plan.stages.map(() => false);
  const taken = plan.crops.map(() => new Array<number>(stages + 1).fill(0));
  const vacate = (t: number, s: number): void => {
    const until = t + toGrid(plan.stages[s]!.cleanDays);
    if (until > day) cleaning.push({ stage: s, holes: 1, until });
  };
  for (const note of notes) {
    if (note.t > day) break;
    const { t, deed, plant, crop: c, stage: s } = note;
    if (deed === 'sow') reached[0] = true;
    if (deed === 'ripen' && s + 1 < stages) reached[s + 1] = true;
    if (deed === 'sow' || deed === 'move') taken[c]![s]!++;
    if (deed === 'move') vacate(t, s - 1);
    if (deed === 'discard' || deed === 'clear') vacate(t, s);
    if (deed === 'pick') {
      picks.set(plant, (picks.get(plant) ?? 0) + 1);
      if (picks.get(plant) === plan.crops[c]!.cuts) vacate(t, s);
      else taken[c]![stages]!++;
    }
    last.set(plant, note);
  }
  const next = new Map<number, Note>();
  for (const note of notes) {
    const byItself = note.deed === 'ripen' || note.deed === 'die' || note.deed === 'fail';
    if (note.t > day && byItself && !next.has(note.plant)) next.set(note.plant, note);
  }
  const staysNow = new Map<number, Stay>();
  for (const stay of stays) if (stay.from <= day && stay.until > day) staysNow.set(stay.plant, stay);
  const numbers: number[] = [];
  const plants: StandingPlant[] = [];
  for (const [plant, { t, deed, crop: c, stage: s }] of [...last].sort(([a], [b]) => a - b)) {
    const cutsLeft = plan.crops[c]!.cuts - (picks.get(plant) ?? 0);
    if (deed === 'discard' || deed === 'clear' || cutsLeft === 0) continue;
    numbers.push(plant);
    const coming = next.get(plant);
    const stay = staysNow.get(plant);
    const told = { crop: c, stage: s, cutsLeft, ...(stay && { since: stay.from, needs: stay.days }) };
    if (deed === 'ripen') plants.push({ ...told, next: 'ready', at: t });
    else if (coming === undefined) {
      // What it would have come to is beyond the end.
      const at = stay === undefined ? seasonDays(plan) + 1 : stay.from + daysOf(plan, stay);
      plants.push({ ...told, next: stay?.sprouts === false ? 'fail' : 'ripen', at });
    } else {
      const what = coming.deed as 'ripen' | 'die' | 'fail';
      plants.push({ ...told, next: what, at: coming.t });
    }
  }
  const opening: InitialState = { day, visitsFrom: day + 0.5, plants: columnsOf(plants), cleaning, reached };
  return { opening, numbers, taken, sown: last.size };
}
