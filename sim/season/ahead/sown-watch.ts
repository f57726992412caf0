/** Seeds that refilled crops will be sown on each visit of the next weeks. */

import type { Deed } from '../../models/line.js';
import type { Watcher } from './futures.js';
import { type Range, rangeOf } from './range.js';

export interface Refilled {
  /** Day of the visit [d from the start]. */
  readonly day: number;
  /** Place of the crop in the plan. */
  readonly crop: number;
  readonly seeds: Range;
}

export class SownWatch implements Watcher {
  readonly #crops: readonly number[];
  readonly #visits: readonly number[];
  /** By crop and visit: seeds in each future. */
  readonly #seeds = new Map<string, number[]>();
  #futures = 0;

  /**
   * @param crops places of the refilled crops in the plan
   * @param visits on which they are looked at, ascending [d from the start]
   */
  constructor(crops: readonly number[], visits: readonly number[]) {
    this.#crops = crops;
    this.#visits = visits;
    for (const day of visits) for (const crop of crops) this.#seeds.set(`${crop} ${day}`, []);
  }

  begin(): void {
    this.#futures++;
    for (const seeds of this.#seeds.values()) seeds.push(0);
  }

  note(t: number, deed: Deed, _plant: number, crop: number): void {
    if (deed !== 'sow') return;
    const seeds = this.#seeds.get(`${crop} ${t}`);
    if (seeds !== undefined) seeds[this.#futures - 1]!++;
  }

  end(): void {}

  /** Visit by visit, once all futures are over. */
  refilled(): Refilled[] {
    return this.#visits.flatMap((day) =>
      this.#crops.map((crop) => ({ day, crop, seeds: rangeOf(this.#seeds.get(`${crop} ${day}`)!) })),
    );
  }
}
