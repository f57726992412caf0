/** Which batch every plant of a future belongs to: those of the log, and those that are still to be sown. */

import type { Deed } from '../../models/line.js';
import type { Opening } from '../../models/opening.js';
import type { Batch } from '../history/logged-season.js';
import type { Watcher } from './futures.js';
import type { Openings } from './openings.js';

/** A batch of the log, or one that is sown in some futures at least. */
export interface AnyBatch {
  /** Name in the log; null if it is still to be sown. */
  readonly name: string | null;
  /** Place of the crop in the plan. */
  readonly crop: number;
  /** Day of its sowing [d from the start]. */
  readonly sown: number;
}

/** Watches first, so that the others can ask it. */
export class Batches implements Watcher {
  /** Those of the log first, then the others in the order in which futures brought them up. */
  readonly all: AnyBatch[];
  readonly #openings: Openings;
  readonly #coming = new Map<string, number>();
  #ofPlant: number[] = [];

  constructor(logged: readonly Batch[], openings: Openings) {
    this.all = logged.map(({ name, crop, sown }) => ({ name, crop, sown }));
    this.#openings = openings;
  }

  /** Place of a plant's batch among all. */
  of(plant: number): number {
    return this.#ofPlant[plant]!;
  }

  /** The first plants of a future are those that stand. */
  begin(opening: Opening | null): void {
    this.#ofPlant = opening === null ? [] : this.#openings.plants.map(({ batch }) => batch);
  }

  note(t: number, deed: Deed, plant: number, crop: number): void {
    if (deed !== 'sow') return;
    const key = `${crop} ${t}`;
    let batch = this.#coming.get(key);
    if (batch === undefined) {
      batch = this.all.push({ name: null, crop, sown: t }) - 1;
      this.#coming.set(key, batch);
    }
    this.#ofPlant[plant] = batch;
  }

  end(): void {}
}
