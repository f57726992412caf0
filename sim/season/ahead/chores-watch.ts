/** What is to be done on each visit of the next days, counted in every future. */

import type { Deed } from '../../models/line.js';
import type { Opening } from '../../models/opening.js';
import type { Plan } from '../../models/plan.js';
import type { Batches } from './batches.js';
import type { Watcher } from './futures.js';
import { type Range, rangeOf } from './range.js';

/** The actions of a visit: those of a log. `clean`: holes that plants leave on that visit and that are cleaned. */
export const CHORES = ['lose', 'pick', 'move', 'sow', 'clean'] as const;

export type ChoreKind = (typeof CHORES)[number];

/** Something to be done on one visit. */
export interface CountedChore {
  /** Day of the visit [d from the start]. */
  readonly day: number;
  readonly kind: ChoreKind;
  /** Place of the stage; of a move the one moved into. */
  readonly stage: number;
  /** Place of the batch among all; null for all batches of the stage together, and for `clean`. */
  readonly batch: number | null;
  readonly count: Range;
  /** Share of the futures in which there is any of it. */
  readonly chance: number;
}

export class ChoresWatch implements Watcher {
  readonly #plan: Plan;
  readonly #batches: Batches;
  readonly #from: number;
  readonly #to: number;
  readonly #counts = new Map<string, { chore: Omit<CountedChore, 'count' | 'chance'>; counts: number[] }>();
  #picksLeft: number[] = [];
  #futures = 0;

  /**
   * @param batches watches the same futures, and hears of everything first
   * @param from first day that is looked at [d from the start]
   * @param to day behind the last one
   */
  constructor(plan: Plan, batches: Batches, from: number, to: number) {
    this.#plan = plan;
    this.#batches = batches;
    this.#from = from;
    this.#to = to;
  }

  begin(opening: Opening | null): void {
    this.#futures++;
    this.#picksLeft = (opening?.plants ?? []).map(({ cutsLeft }) => cutsLeft);
  }

  note(t: number, deed: Deed, plant: number, crop: number, stage: number): void {
    if (deed === 'sow') this.#picksLeft[plant] = this.#plan.crops[crop]!.cuts;
    const out = deed === 'pick' && --this.#picksLeft[plant]! === 0;
    if (t < this.#from || t >= this.#to) return;
    if (deed === 'discard' || deed === 'clear') {
      this.#count(t, 'lose', stage, plant);
      this.#clean(t, stage);
    } else if (deed === 'pick') {
      this.#count(t, 'pick', stage, plant);
      if (out) this.#clean(t, stage);
    } else if (deed === 'move') {
      this.#count(t, 'move', stage, plant);
      this.#clean(t, stage - 1);
    } else if (deed === 'sow') this.#count(t, 'sow', stage, plant);
  }

  end(): void {}

  /** In no special order, once all futures are over. */
  chores(): CountedChore[] {
    return [...this.#counts.values()].map(({ chore, counts }) => {
      const all = new Array<number>(this.#futures).fill(0);
      counts.forEach((count, k) => {
        all[k] = count;
      });
      return { ...chore, count: rangeOf(all), chance: all.filter((count) => count > 0).length / all.length };
    });
  }

  #count(day: number, kind: ChoreKind, stage: number, plant: number): void {
    this.#add(day, kind, stage, null);
    this.#add(day, kind, stage, this.#batches.of(plant));
  }

  #clean(day: number, stage: number): void {
    if (this.#plan.stages[stage]!.cleanDays > 0) this.#add(day, 'clean', stage, null);
  }

  #add(day: number, kind: ChoreKind, stage: number, batch: number | null): void {
    const key = `${day} ${kind} ${stage} ${batch ?? ''}`;
    let found = this.#counts.get(key);
    if (found === undefined) {
      found = { chore: { day, kind, stage, batch }, counts: [] };
      this.#counts.set(key, found);
    }
    const k = this.#futures - 1;
    found.counts[k] = (found.counts[k] ?? 0) + 1;
  }
}
