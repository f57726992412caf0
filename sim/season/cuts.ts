/**
 * Plants that are picked several times, in the last stage.
 *
 * A log says how many plants of a batch were picked, not which, so whether a pick was a plant's first or
 * second is not known. Here the plant that is due first by the plan is taken to be picked, thrown away or
 * dead first (first in, first out). That is an approximation: where a slow plant's first pick comes after a
 * quick one's second, times of growth and regrowth are mixed up a little.
 */

import type { Plan } from '../models/plan.js';
import type { LogRow } from './rows.js';
import type { Group } from './survival/record.js';

/** One growth of one plant: until its first pick, or between two picks. */
interface Growth {
  readonly crop: number;
  readonly batch: string;
  readonly from: number;
  readonly due: number;
  readonly regrowth: boolean;
  readonly cutsLeft: number;
  end: { readonly visit: number; readonly how: 'ready' | 'dead' } | null;
}

export class Cuts {
  readonly #plan: Plan | null;
  readonly #days: readonly number[];
  readonly #growing: Growth[] = [];
  readonly #over: Growth[] = [];

  /** @param days of the visits [d] */
  constructor(plan: Plan | null, days: readonly number[]) {
    this.#plan = plan;
    this.#days = days;
  }

  /** Whether a crop is cut several times; only a plan tells. */
  concerns(crop: string): boolean {
    return (this.#planOf(crop)?.cuts ?? 1) > 1;
  }

  enter(crop: number, { crop: name, batch, count }: LogRow, visit: number): void {
    const { cuts, stages } = this.#planOf(name)!;
    const from = this.#days[visit]!;
    const due = from + stages.at(-1)!.time.days;
    for (let i = 0; i < count; i++) {
      this.#add({ crop, batch, from, due, regrowth: false, cutsLeft: cuts, end: null });
    }
  }

  /** @returns how many plants left their hole */
  leave({ action, crop, batch, count }: LogRow, visit: number, how: 'ready' | 'dead'): number {
    let gone = 0;
    const mine = this.#growing.filter((growth) => growth.batch === batch).slice(0, count);
    for (const growth of mine) {
      this.#growing.splice(this.#growing.indexOf(growth), 1);
      growth.end = { visit, how };
      this.#over.push(growth);
      const cutsLeft = growth.cutsLeft - 1;
      if (action !== 'pick' || cutsLeft === 0) gone++;
      else {
        const from = this.#days[visit]!;
        const due = from + this.#planOf(crop)!.regrow!.time.days;
        this.#add({ crop: growth.crop, batch, from, due, regrowth: true, cutsLeft, end: null });
      }
    }
    return gone;
  }

  /**
   * Growths that began on the same day, batch by batch.
   * @param kindOf number of a kind
   */
  groups(kindOf: (crop: number, regrowth: boolean) => number): Group[] {
    const alike = new Map<string, Growth[]>();
    for (const growth of [...this.#over, ...this.#growing]) {
      const key = JSON.stringify([growth.batch, growth.from, growth.regrowth]);
      const known = alike.get(key);
      if (known === undefined) alike.set(key, [growth]);
      else known.push(growth);
    }
    return [...alike.values()].map((growths) => {
      const seen = (how: 'ready' | 'dead') => {
        const counts = new Map<number, number>();
        for (const { end } of growths) {
          if (end?.how === how) counts.set(end.visit, (counts.get(end.visit) ?? 0) + 1);
        }
        return [...counts].map(([visit, count]) => ({ visit, count }));
      };
      const { crop, from, regrowth } = growths[0]!;
      return {
        kind: kindOf(crop, regrowth),
        entries: [{ day: from, count: growths.length }],
        ready: seen('ready'),
        dead: seen('dead'),
        standing: growths.filter(({ end }) => end === null).length,
      };
    });
  }

  #planOf(crop: string) {
    return this.#plan?.crops.find(({ name }) => name === crop);
  }

  /** Kept by the day on which they are due; of equal ones the earlier first. */
  #add(growth: Growth): void {
    const place = this.#growing.findIndex(({ due }) => due > growth.due);
    this.#growing.splice(place < 0 ? this.#growing.length : place, 0, growth);
  }
}
