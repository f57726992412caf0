/** How many holes are taken in the futures, on average: by stage and crop after each visit; and when heads become ready. */

import type { Deed } from '../../models/line.js';
import type { Opening } from '../../models/opening.js';
import { holesOf, type Plan, seasonDays } from '../../models/plan.js';
import type { Watcher } from './futures.js';

export class LoadWatch implements Watcher {
  readonly #plan: Plan;
  readonly #visits: readonly number[];
  readonly #last: number;
  /** By stage, crop and day, summed over the futures: plants that stand after that day's visit, or the one before. */
  readonly #standing: Float64Array[][];
  /** By stage and day, likewise: holes that are being cleaned. */
  readonly #cleaning: Float64Array[];
  /** By crop and day, summed over the futures: heads that become ready. */
  readonly #ripe: Float64Array[];
  #now: Int32Array[] = [];
  #picksLeft: number[] = [];
  #futures = 0;

  /** @param plan with visits on days */
  constructor(plan: Plan) {
    this.#plan = plan;
    this.#visits = plan.visits.kind === 'days' ? plan.visits.days : [];
    this.#last = plan.stages.length - 1;
    const days = (): Float64Array => new Float64Array(seasonDays(plan));
    this.#standing = plan.stages.map(() => plan.crops.map(days));
    this.#cleaning = plan.stages.map(days);
    this.#ripe = plan.crops.map(days);
  }

  begin(opening: Opening | null): void {
    this.#now = this.#plan.stages.map(() => new Int32Array(this.#plan.crops.length));
    const plants = opening?.plants ?? [];
    for (const { stage, crop } of plants) this.#now[stage]![crop]!++;
    this.#picksLeft = plants.map(({ cutsLeft }) => cutsLeft);
    this.#futures++;
  }

  note(t: number, deed: Deed, plant: number, crop: number, stage: number): void {
    const now = this.#now;
    if (deed === 'sow') {
      now[0]![crop]!++;
      this.#picksLeft[plant] = this.#plan.crops[crop]!.cuts;
    } else if (deed === 'move') {
      now[stage - 1]![crop]!--;
      now[stage]![crop]!++;
    } else if (deed === 'discard' || deed === 'clear') now[stage]![crop]!--;
    else if (deed === 'pick') {
      if (--this.#picksLeft[plant]! === 0) now[stage]![crop]!--;
    } else if (deed === 'ripen' && stage === this.#last) this.#ripe[crop]![Math.floor(t)]!++;
  }

  visited(t: number, free: Int32Array): void {
    this.#now.forEach((crops, s) => {
      let standing = 0;
      crops.forEach((count, c) => {
        standing += count;
        this.#standing[s]![c]![t]! += count;
      });
      this.#cleaning[s]![t]! += holesOf(this.#plan.stages[s]!) - free[s]! - standing;
    });
  }

  end(): void {}

  /** Mean plants of a crop that stand in a stage from one day to another. */
  standing(stage: number, crop: number, from: number, to: number): number {
    return this.#mean(this.#standing[stage]![crop]!, from, to);
  }

  /** Mean holes of a stage that are being cleaned from one day to another. */
  cleaning(stage: number, from: number, to: number): number {
    return this.#mean(this.#cleaning[stage]!, from, to);
  }

  /** Heads of a crop that become ready from one day to another, its end not included. */
  ripe(crop: number, from: number, to: number): number {
    let sum = 0;
    const ripe = this.#ripe[crop]!;
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
