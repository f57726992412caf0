/** The batches of plants in futures: those of the log, and those that are still to be sown. */

import type { InitialState } from '../../models/initial-state.js';
import type { PlantEvent } from '../../models/line/line.js';
import type { Plan } from '../../models/plan.js';
import type { Batch } from '../history/logged-season.js';
import type { Watcher } from './watcher.js';

/** A batch of the log, or one that is sown in some futures at least. */
export interface AnyBatch {
  /** Name in the log; null if it is still to be sown. */
  readonly name: string | null;
  /** Place of the crop in the plan. */
  readonly crop: number;
  /** Day of its sowing [d from the start]. */
  readonly sown: number;
}

/** Batches that are looked at. Plain data. */
export interface BatchesLook {
  /** How many the log has. */
  readonly logged: number;
  /** Of each plant that stands, in the order of sowing: the place of its batch in the log. */
  readonly standing: readonly number[];
}

/**
 * Gives each batch a number that is the same in every future: its place in the log, or behind these one for each crop and
 * day. Watches first, so that the others can ask it; it sees which batches are sown, in the order of sowing.
 */
export class BatchWatch implements Watcher<readonly number[]> {
  readonly #look: BatchesLook;
  readonly #crops: number;
  #ofPlant: number[] = [];
  #sown = new Set<number>();

  constructor({ crops }: Plan, look: BatchesLook) {
    this.#look = look;
    this.#crops = crops.length;
  }

  /** Number of a plant's batch. */
  of(plant: number): number {
    return this.#ofPlant[plant]!;
  }

  /** The first plants of a future are those that stand. */
  begin(initial: InitialState | null): void {
    this.#ofPlant = initial === null ? [] : [...this.#look.standing];
    this.#sown = new Set();
  }

  onEvent(t: number, event: PlantEvent, plant: number, crop: number): void {
    if (event !== 'sow') return;
    const batch = this.#look.logged + t * this.#crops + crop;
    this.#ofPlant[plant] = batch;
    this.#sown.add(batch);
  }

  end(): readonly number[] {
    return [...this.#sown];
  }
}

/** All batches of all futures: those of the log first, then the others in the order in which futures brought them up. */
export class Batches {
  readonly all: readonly AnyBatch[];
  readonly #places: ReadonlyMap<number, number>;

  /** @param seen by a `BatchWatch`, one entry a future */
  constructor({ crops }: Plan, logged: readonly Batch[], seen: readonly (readonly number[])[]) {
    const coming = [...new Set(seen.flat())];
    this.#places = new Map(coming.map((batch, i) => [batch, logged.length + i]));
    this.all = [
      ...logged.map(({ name, crop, sown }) => ({ name, crop, sown })),
      ...coming.map((batch) => {
        const key = batch - logged.length;
        return { name: null, crop: key % crops.length, sown: Math.floor(key / crops.length) };
      }),
    ];
  }

  /** Place among all. @param batch its number */
  placeOf(batch: number): number {
    return this.#places.get(batch) ?? batch;
  }
}
