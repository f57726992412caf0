/** What is to be done on each visit of the next days, counted in every future. */

import { groupedBy } from '../../engine/lists.js';
import type { InitialState } from '../../models/initial-state.js';
import type { PlantEvent } from '../../models/line/line.js';
import type { Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { Batches, BatchWatch } from './batches.js';
import { type Forecast, forecastOf } from './forecast.js';
import type { Watcher } from './watcher.js';

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
  readonly count: Forecast;
  /** Share of the futures in which there is any of it. */
  readonly chance: number;
}

/** Which visits are looked at. Plain data. */
export interface ChoresLook {
  /** First day [d from the start]. */
  readonly from: number;
  /** Day behind the last one. */
  readonly to: number;
}

/** Something done on one visit of one future; `batch` is its number (see batches.ts). */
export type ChoreSeen = Omit<CountedChore, 'count' | 'chance'> & { readonly count: number };

export class ChoresWatch implements Watcher<readonly ChoreSeen[]> {
  readonly #plan: Plan;
  readonly #batches: BatchWatch;
  readonly #look: ChoresLook;
  #counts = new Map<string, { -readonly [K in keyof ChoreSeen]: ChoreSeen[K] }>();
  #picksLeft: number[] = [];

  /** @param batches watches the same futures, and hears of everything first */
  constructor(plan: Plan, batches: BatchWatch, look: ChoresLook) {
    this.#plan = plan;
    this.#batches = batches;
    this.#look = look;
  }

  begin(initial: InitialState | null): void {
    this.#counts = new Map();
    this.#picksLeft = (initial?.plants ?? []).map(({ cutsLeft }) => cutsLeft);
  }

  onEvent(t: number, event: PlantEvent, plant: number, crop: number, stage: number): void {
    if (event === 'sow') this.#picksLeft[plant] = this.#plan.crops[crop]!.cuts;
    const out = event === 'pick' && --this.#picksLeft[plant]! === 0;
    if (t < this.#look.from || t >= this.#look.to) return;
    if (event === 'discard' || event === 'clear') {
      this.#count(t, 'lose', stage, plant);
      this.#clean(t, stage);
    } else if (event === 'pick') {
      this.#count(t, 'pick', stage, plant);
      if (out) this.#clean(t, stage);
    } else if (event === 'move') {
      this.#count(t, 'move', stage, plant);
      this.#clean(t, route.before(this.#plan.crops[crop]!, stage));
    } else if (event === 'sow') this.#count(t, 'sow', stage, plant);
  }

  end(): readonly ChoreSeen[] {
    return [...this.#counts.values()];
  }

  #count(day: number, kind: ChoreKind, stage: number, plant: number): void {
    this.#add(day, kind, stage, null);
    this.#add(day, kind, stage, this.#batches.of(plant));
  }

  #clean(day: number, stage: number): void {
    if (this.#plan.stages[stage]!.cleanDays > 0) this.#add(day, 'clean', stage, null);
  }

  #add(day: number, kind: ChoreKind, stage: number, batch: number | null): void {
    const key = keyOf({ day, kind, stage, batch });
    const found = this.#counts.get(key);
    if (found === undefined) this.#counts.set(key, { day, kind, stage, batch, count: 1 });
    else found.count++;
  }
}

function keyOf({ day, kind, stage, batch }: Omit<ChoreSeen, 'count'>): string {
  return `${day} ${kind} ${stage} ${batch ?? ''}`;
}

/** The chores of all futures, in no special order. @param seen one entry a future */
export function countedChores(seen: readonly (readonly ChoreSeen[])[], batches: Batches): CountedChore[] {
  return [...groupedBy(seen.flat(), keyOf).values()].map((some) => {
    const { day, kind, stage, batch } = some[0];
    const none = new Array<number>(seen.length - some.length).fill(0);
    return {
      day,
      kind,
      stage,
      batch: batch === null ? null : batches.placeOf(batch),
      count: forecastOf([...some.map(({ count }) => count), ...none]),
      chance: some.length / seen.length,
    };
  });
}
