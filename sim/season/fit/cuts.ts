/**
 * Plants that are picked several times, in the last stage.
 *
 * A log says how many plants of a batch were picked, not which, so whether a pick was a plant's first or
 * second is not known. Here the plant that is due first by the plan is taken to be picked, thrown away or
 * dead first (first in, first out). That is an approximation: where a slow plant's first pick comes after a
 * quick one's second, times of growth and regrowth are mixed up a little.
 */

import type { Plan } from '../../models/plan.js';
import type { LogRow } from '../log/rows.js';
import { type Group, type Seen, total } from './survival/record.js';

/** Growths of some plants of a batch that began together: until their first pick, or between two picks. */
interface Growth {
  readonly crop: number;
  readonly batch: string;
  readonly from: number;
  readonly due: number;
  readonly regrowth: boolean;
  readonly cutsLeft: number;
  /** Plants that are still at it. */
  count: number;
  readonly ready: Map<number, number>;
  readonly dead: Map<number, number>;
}

export class Cuts {
  readonly #plan: Plan | null;
  readonly #days: readonly number[];
  /** By the day on which they are due; of equal ones the earlier first. */
  readonly #growing: Growth[] = [];
  readonly #all: Growth[] = [];

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
    this.#add({ crop, batch, from, due, regrowth: false, cutsLeft: cuts, count });
  }

  /** @returns how many plants left their hole */
  leave({ action, crop, batch, count }: LogRow, visit: number, how: 'ready' | 'dead'): number {
    let gone = 0;
    let left = count;
    for (const growth of this.#growing.filter((some) => some.batch === batch)) {
      const taken = Math.min(left, growth.count);
      if (taken === 0) break;
      left -= taken;
      growth.count -= taken;
      growth[how].set(visit, (growth[how].get(visit) ?? 0) + taken);
      if (growth.count === 0) this.#growing.splice(this.#growing.indexOf(growth), 1);
      const cutsLeft = growth.cutsLeft - 1;
      if (action !== 'pick' || cutsLeft === 0) gone += taken;
      else {
        const from = this.#days[visit]!;
        const due = from + this.#planOf(crop)!.regrow!.time.days;
        this.#add({ crop: growth.crop, batch, from, due, regrowth: true, cutsLeft, count: taken });
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
    for (const growth of this.#all) {
      const key = JSON.stringify([growth.batch, growth.from, growth.regrowth]);
      const known = alike.get(key);
      if (known === undefined) alike.set(key, [growth]);
      else known.push(growth);
    }
    return [...alike.values()].map((growths) => {
      const ended = (how: 'ready' | 'dead'): Seen[] => {
        const counts = new Map<number, number>();
        for (const growth of growths) {
          for (const [visit, count] of growth[how]) counts.set(visit, (counts.get(visit) ?? 0) + count);
        }
        return [...counts].map(([visit, count]) => ({ visit, count }));
      };
      const { crop, from, regrowth } = growths[0]!;
      const ready = ended('ready');
      const dead = ended('dead');
      const standing = total(growths);
      const count = total(ready) + total(dead) + standing;
      return { kind: kindOf(crop, regrowth), entries: [{ day: from, count }], ready, dead, standing };
    });
  }

  #planOf(crop: string) {
    return this.#plan?.crops.find(({ name }) => name === crop);
  }

  #add(begun: Omit<Growth, 'ready' | 'dead'>): void {
    const growth = { ...begun, ready: new Map(), dead: new Map() };
    const place = this.#growing.findIndex(({ due }) => due > growth.due);
    this.#growing.splice(place < 0 ? this.#growing.length : place, 0, growth);
    this.#all.push(growth);
  }
}
