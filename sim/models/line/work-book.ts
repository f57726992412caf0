/**
 * How long each visit of a season takes. What was done is counted as sums anyway (stays.ts), so a visit's deeds are what they have grown
 * by since the visit before. Nothing is allocated while a season runs: the visits of a season are known before it.
 */

import { valueOfRank } from '../../engine/selection.js';
import { quantileOf } from '../../engine/tally.js';
import { type CountedDeeds, deedMinutes } from '../physical/work.js';
import { visitDays } from '../plan.js';
import type { StayPlan } from './stay-kinds.js';

export class WorkBook {
  readonly #by: StayPlan;
  /** Of each visit [min]: in the order of time, and once the season is over in any order. */
  readonly #minutes: Float64Array;
  #visits = 0;
  /** Minutes of all deeds up to the visit before. */
  #before = 0;

  /** @returns null where nothing is told of work, or nobody makes visits */
  static of(by: StayPlan): WorkBook | null {
    const { plan, matter } = by;
    return matter.physical.work === null || plan.visits.kind === 'always' ? null : new WorkBook(by);
  }

  private constructor(by: StayPlan) {
    this.#by = by;
    this.#minutes = new Float64Array(visitDays(by.plan).length);
  }

  reset(): void {
    this.#visits = 0;
    this.#before = 0;
  }

  /** A visit is over. @param deeds what was done in the season until then */
  visited(deeds: CountedDeeds): void {
    const work = this.#by.matter.physical.work!;
    const done = deedMinutes(work, deeds);
    this.#minutes[this.#visits++] = work.visitMin + work.tankMin + done - this.#before;
    this.#before = done;
  }

  /** Minutes that share `p` of the visits of a season that is over do not exceed [min]; 0 if there was none. */
  quantile(p: number): number {
    // There was a visit on each of its days.
    const { length } = this.#minutes;
    return length === 0 ? 0 : quantileOf(p, length, (rank) => valueOfRank(this.#minutes, rank));
  }
}
