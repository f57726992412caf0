/** What is to be done on each visit of the next days, counted in every future. */

import { groupedBy } from '../../engine/lists.js';
import type { InitialState } from '../../models/initial-state.js';
import type { Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import type { BatchWatch } from './batches.js';
import { type Forecast, forecastOf } from './forecast.js';
import { type PlantColumn, picksLeftOf } from './plant-column.js';
import type { Watch } from './watcher.js';

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

/** @param batches watches the same future, and hears of everything first @param picksLeft memory for its use */
export function watchChores(
  plan: Plan,
  { from, to }: ChoresLook,
  batches: BatchWatch,
  initial: InitialState | null,
  picksLeft: PlantColumn<Uint8Array>,
): Watch<readonly ChoreSeen[]> {
  const counts = new Map<string, { -readonly [K in keyof ChoreSeen]: ChoreSeen[K] }>();
  picksLeftOf(picksLeft, initial?.plants.cutsLeft);
  const add = (day: number, kind: ChoreKind, stage: number, batch: number | null): void => {
    const key = keyOf({ day, kind, stage, batch });
    const found = counts.get(key);
    if (found === undefined) counts.set(key, { day, kind, stage, batch, count: 1 });
    else found.count++;
  };
  const count = (day: number, kind: ChoreKind, stage: number, plant: number): void => {
    add(day, kind, stage, null);
    add(day, kind, stage, batches.of(plant));
  };
  const clean = (day: number, stage: number): void => {
    if (plan.stages[stage]!.cleanDays > 0) add(day, 'clean', stage, null);
  };
  return {
    onEvent(t, event, plant, crop, stage) {
      if (event === 'sow') picksLeft.set(plant, plan.crops[crop]!.cuts);
      if (event === 'pick') picksLeft.set(plant, picksLeft.get(plant) - 1);
      const out = event === 'pick' && picksLeft.get(plant) === 0;
      if (t < from || t >= to) return;
      if (event === 'discard' || event === 'clear') {
        count(t, 'lose', stage, plant);
        clean(t, stage);
      } else if (event === 'pick') {
        count(t, 'pick', stage, plant);
        if (out) clean(t, stage);
      } else if (event === 'move') {
        count(t, 'move', stage, plant);
        clean(t, route.before(plan.crops[crop]!, stage));
      } else if (event === 'sow') count(t, 'sow', stage, plant);
    },
    end: () => [...counts.values()],
  };
}

function keyOf({ day, kind, stage, batch }: Omit<ChoreSeen, 'count'>): string {
  return `${day} ${kind} ${stage} ${batch ?? ''}`;
}

/**
 * The same week by week: each chore on the first day of its week, all batches together, of sowings also crop by crop.
 * @param weekOf the first day of a day's week @param cropOf the crop of a batch; its place stands for the batch
 */
export function weeklyChores(
  seen: readonly ChoreSeen[],
  weekOf: (day: number) => number,
  cropOf: (batch: number) => number,
): ChoreSeen[] {
  const told = seen
    .filter(({ kind, batch }) => batch === null || kind === 'sow')
    .map((one) => ({ ...one, day: weekOf(one.day), batch: one.batch === null ? null : cropOf(one.batch) }));
  return [...groupedBy(told, keyOf).values()].map((some) => ({
    ...some[0],
    count: some.reduce((sum, { count }) => sum + count, 0),
  }));
}

/**
 * The chores of all futures, in no special order.
 * @param seen one entry a future @param placeOf the place of a batch among all
 */
export function countedChores(
  seen: readonly (readonly ChoreSeen[])[],
  placeOf: (batch: number) => number,
): CountedChore[] {
  return [...groupedBy(seen.flat(), keyOf).values()].map((some) => {
    const { day, kind, stage, batch } = some[0];
    return {
      day,
      kind,
      stage,
      batch: batch === null ? null : placeOf(batch),
      count: forecastOf(
        some.map(({ count }) => count),
        seen.length,
      ),
      chance: some.length / seen.length,
    };
  });
}
