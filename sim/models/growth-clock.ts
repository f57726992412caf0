/**
 * Growth under conditions that change by date: where plants take `times` as long as usual, a day brings 1/times of a usual day's growth. A
 * plant that needs T usual days is ready when what its days brought since it came reaches T.
 */

import type { Growing, GrowthSpell, Plan } from './plan.js';

const known = new WeakMap<readonly GrowthSpell[], GrowthClock>();

/** @returns null where a day is like any other */
export function growthClock({ spells }: Pick<Growing, 'spells'>): GrowthClock | null {
  if (spells === undefined) return null;
  let clock = known.get(spells);
  if (clock === undefined) {
    clock = new GrowthClock(spells);
    known.set(spells, clock);
  }
  return clock;
}

/** The clocks of all kinds of stay of a plan, in the order of line/stay-kinds.ts; null where there is none. */
export function growthClocks({ stages, crops }: Plan): (GrowthClock | null)[] | null {
  const clocks = [...stages.keys(), stages.length].flatMap((s) =>
    crops.map((crop) => {
      const growing = s === stages.length ? crop.regrow : crop.stages[s]!;
      return growing && growthClock(growing);
    }),
  );
  return clocks.every((clock) => clock === null) ? null : clocks;
}

export class GrowthClock {
  /** Where each stretch of one pace begins [d from the start]; the first has always been. */
  readonly #from: Float64Array;
  readonly #times: Float64Array;

  /** @param spells ascending and apart from each other */
  constructor(spells: readonly GrowthSpell[]) {
    const stretches = [{ from: -Infinity, times: 1 }];
    for (const { from, beyond, times } of spells) {
      if (stretches.at(-1)!.from === from) stretches.pop();
      stretches.push({ from, times }, { from: beyond, times: 1 });
    }
    this.#from = Float64Array.from(stretches, ({ from }) => from);
    this.#times = Float64Array.from(stretches, ({ times }) => times);
  }

  /**
   * Days that some growth takes.
   * @param from when it begins [d from the start]
   * @param growth in usual days [d]
   */
  daysFor(from: number, growth: number): number {
    let i = this.#at(from);
    let t = from;
    let left = growth;
    while (i + 1 < this.#from.length) {
      const room = (this.#from[i + 1]! - t) / this.#times[i]!;
      if (left <= room) break;
      left -= room;
      t = this.#from[++i]!;
    }
    return t - from + left * this.#times[i]!;
  }

  /**
   * Days that some growth took which ended at a time.
   * @param end [d from the start]
   * @param growth in usual days [d]
   */
  daysBefore(end: number, growth: number): number {
    let i = this.#at(end);
    let t = end;
    let left = growth;
    for (; i > 0; i--) {
      const room = (t - this.#from[i]!) / this.#times[i]!;
      if (left <= room) break;
      left -= room;
      t = this.#from[i]!;
    }
    return end - t + left * this.#times[i]!;
  }

  /** Growth from one time to another, in usual days; below 0 if the second lies before the first [d]. */
  growth(from: number, to: number): number {
    if (to < from) return -this.growth(to, from);
    let i = this.#at(from);
    let t = from;
    let sum = 0;
    while (i + 1 < this.#from.length && this.#from[i + 1]! < to) {
      sum += (this.#from[i + 1]! - t) / this.#times[i]!;
      t = this.#from[++i]!;
    }
    return sum + (to - t) / this.#times[i]!;
  }

  /** The stretch in which a time lies; the later one where two meet. */
  #at(t: number): number {
    let i = this.#from.length - 1;
    while (i > 0 && this.#from[i]! > t) i--;
    return i;
  }
}
