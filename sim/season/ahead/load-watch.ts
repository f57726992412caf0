/** How many holes are taken in the futures, on average: by stage and crop after each visit; and when heads become ready. */

import type { InitialState } from '../../models/initial-state.js';
import { holesOf, type Plan, seasonDays } from '../../models/plan.js';
import * as route from '../../models/route.js';
import { dailyVisits } from '../history/plan-days.js';
import { type PlantColumn, picksLeftOf } from './plant-column.js';
import type { Watch } from './watcher.js';

/** Of one future, or of several together. */
export interface LoadSeen {
  /** By stage, crop and day: plants that stand after that day's visit. */
  readonly standing: readonly (readonly Float64Array[])[];
  /** By stage and day, likewise: holes that are being cleaned. */
  readonly cleaning: readonly Float64Array[];
  /** By crop and day: heads that become ready. */
  readonly ripe: readonly Float64Array[];
}

function nothingSeen(plan: Plan): LoadSeen {
  const days = (): Float64Array => new Float64Array(seasonDays(plan));
  return {
    standing: plan.stages.map(() => plan.crops.map(days)),
    cleaning: plan.stages.map(days),
    ripe: plan.crops.map(days),
  };
}

/** @param plan with visits on days @param picksLeft memory for its use */
export function watchLoad(
  plan: Plan,
  initial: InitialState | null,
  picksLeft: PlantColumn<Uint8Array>,
): Watch<LoadSeen> {
  const seen = nothingSeen(plan);
  const now = plan.stages.map(() => new Int32Array(plan.crops.length));
  initial?.plants.stage.forEach((stage, i) => {
    now[stage]![initial.plants.crop[i]!]!++;
  });
  picksLeftOf(picksLeft, initial?.plants.cutsLeft);
  return {
    onEvent(t, event, plant, crop, stage) {
      if (event === 'sow') {
        now[stage]![crop]!++;
        picksLeft.set(plant, plan.crops[crop]!.cuts);
      } else if (event === 'move') {
        now[route.before(plan.crops[crop]!, stage)]![crop]!--;
        now[stage]![crop]!++;
      } else if (event === 'discard' || event === 'clear') now[stage]![crop]!--;
      else if (event === 'pick') {
        const left = picksLeft.get(plant) - 1;
        picksLeft.set(plant, left);
        if (left === 0) now[stage]![crop]!--;
      } else if (event === 'ripen' && route.isLast(plan, stage)) seen.ripe[crop]![Math.floor(t)]!++;
    },
    onVisitEnd(t, free) {
      now.forEach((crops, s) => {
        let standing = 0;
        crops.forEach((count, c) => {
          standing += count;
          seen.standing[s]![c]![t] = count;
        });
        seen.cleaning[s]![t] = holesOf(plan.stages[s]!) - free[s]! - standing;
      });
    },
    end: () => seen,
  };
}

/** The mean load of all futures. */
export class Load {
  readonly #plan: Plan;
  readonly #visits: readonly number[];
  readonly #sum: LoadSeen;
  readonly #futures: number;

  /** @param plan as it was watched @param seen at least one future */
  constructor(plan: Plan, seen: readonly LoadSeen[]) {
    this.#plan = plan;
    this.#visits = dailyVisits(plan);
    this.#futures = seen.length;
    this.#sum = nothingSeen(plan);
    const add = (sums: readonly Float64Array[], more: readonly Float64Array[]): void => {
      sums.forEach((sum, i) => {
        for (let day = 0; day < sum.length; day++) sum[day]! += more[i]![day]!;
      });
    };
    for (const { standing, cleaning, ripe } of seen) {
      standing.forEach((crops, s) => {
        add(this.#sum.standing[s]!, crops);
      });
      add(this.#sum.cleaning, cleaning);
      add(this.#sum.ripe, ripe);
    }
  }

  /** Mean plants of a crop that stand in a stage from one day to another. */
  standing(stage: number, crop: number, from: number, to: number): number {
    return this.#mean(this.#sum.standing[stage]![crop]!, from, to);
  }

  /** Mean holes of a stage that are being cleaned from one day to another. */
  cleaning(stage: number, from: number, to: number): number {
    return this.#mean(this.#sum.cleaning[stage]!, from, to);
  }

  /** Heads of a crop that become ready from one day to another, its end not included. */
  ripe(crop: number, from: number, to: number): number {
    let sum = 0;
    const ripe = this.#sum.ripe[crop]!;
    for (let day = Math.floor(from); day < Math.min(to, ripe.length); day++) sum += ripe[day]!;
    return sum / this.#futures;
  }

  /** Mean over time of what holds from each visit to the next. */
  #mean(atVisits: Float64Array, from: number, to: number): number {
    let sum = 0;
    this.#visits.forEach((day, i) => {
      const next = this.#visits[i + 1] ?? seasonDays(this.#plan);
      const days = Math.min(to, next) - Math.max(from, day);
      if (days > 0) sum += days * atVisits[day]!;
    });
    return sum / (to - from) / this.#futures;
  }
}
