/** The batches of plants in futures: those of the log, and those that are still to be sown. */

import type { InitialState } from '../../models/initial-state.js';
import type { Plan } from '../../models/plan.js';
import type { Batch } from '../history/logged-season.js';
import { SownInTurn } from './sown-in-turn.js';
import type { Watch } from './watcher.js';

/** A batch of the log, or one that is sown in some futures at least. */
export interface AnyBatch {
  /** Name in the log; null if it is still to be sown. */
  readonly name: string | null;
  /** Place of the crop in the plan. */
  readonly crop: number;
  /** Day of its sowing; of one that stood before the log told of it, the day of its `stand` rows [d from the start]. */
  readonly sown: number;
  readonly stood: boolean;
}

/** Batches that are looked at. Plain data. */
export interface BatchesLook {
  /** How many the log has. */
  readonly logged: number;
  /** Of each plant that stands, in the order of sowing: the place of its batch in the log. */
  readonly standing: Int32Array;
}

/** Gives each batch a number that is the same in every future; sees which batches are sown, in the order of sowing. */
export interface BatchWatch extends Watch<readonly number[]> {
  /** Number of a plant's batch: its place in the log, or behind these one for each crop and day. */
  of(plant: number): number;
}

/** Watches first, so that the others can ask it. @param initial whose plants are the first of the future */
export function watchBatches(
  { crops }: Plan,
  { logged, standing }: BatchesLook,
  initial: InitialState | null,
): BatchWatch {
  const stood = initial === null ? 0 : standing.length;
  const sown = new SownInTurn<number>();
  return {
    of: (plant) => (plant < stood ? standing[plant] : sown.of(plant))!,
    onEvent(t, event, plant, crop) {
      if (event !== 'sow') return;
      sown.add(plant, logged + t * crops.length + crop);
    },
    end: () => sown.all(),
  };
}

/** All batches of all futures: those of the log first, then the others in the order in which futures brought them up. */
export class Batches {
  readonly all: readonly AnyBatch[];
  readonly #places: ReadonlyMap<number, number>;

  /** @param seen by `watchBatches`, one entry a future */
  constructor({ crops }: Plan, logged: readonly Batch[], seen: readonly (readonly number[])[]) {
    const coming = [...new Set(seen.flat())];
    this.#places = new Map(coming.map((batch, i) => [batch, logged.length + i]));
    this.all = [
      ...logged.map(({ name, crop, sown, seeds }) => ({ name, crop, sown, stood: seeds === 0 })),
      ...coming.map((batch) => {
        const key = batch - logged.length;
        return { name: null, crop: key % crops.length, sown: Math.floor(key / crops.length), stood: false };
      }),
    ];
  }

  /** Place among all. @param batch its number */
  placeOf(batch: number): number {
    return this.#places.get(batch) ?? batch;
  }
}
