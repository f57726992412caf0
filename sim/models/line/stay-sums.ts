/** The sums that stays leave behind while a season runs (see stays.ts). */

import type { Plan } from '../plan.js';
import type { Holes } from './holes.js';
import type { Stage } from './stage.js';

export class StaySums {
  /* By kind of stay (see stay-kinds.ts). */
  readonly begun: Float64Array;
  /** Days drawn for those that are to end ripe [d]. */
  readonly days: Float64Array;
  /** Waiting of ready plants: what is over, less the moments since when the others wait [d]. */
  readonly waited: Float64Array;

  /* By stage: of plants that died, days of light on leaves, and of leaf layers [d]; water in what died or was thrown away [L]. */
  readonly deadCover: Float64Array;
  readonly deadLayers: Float64Array;
  readonly thrownL: Float64Array;

  /* By crop: picks; seeds that do not sprout, and those of them that were seen to have failed. */
  readonly picked: Float64Array;
  readonly barren: Float64Array;
  readonly failed: Float64Array;

  /* By hole: since when its plant grows there; days drawn for it, if it is to die before they are over [d]. */
  readonly since: Float64Array;
  readonly doomedDays: Float64Array;

  readonly #cuts: Uint8Array;
  readonly #stages: number;

  constructor({ stages, crops }: Plan, holes: number) {
    const kinds = (stages.length + 1) * crops.length;
    this.begun = new Float64Array(kinds);
    this.days = new Float64Array(kinds);
    this.waited = new Float64Array(kinds);
    this.deadCover = new Float64Array(stages.length);
    this.deadLayers = new Float64Array(stages.length);
    this.thrownL = new Float64Array(stages.length);
    this.picked = new Float64Array(crops.length);
    this.barren = new Float64Array(crops.length);
    this.failed = new Float64Array(crops.length);
    this.since = new Float64Array(holes);
    this.doomedDays = new Float64Array(holes);
    this.#cuts = Uint8Array.from(crops, ({ cuts }) => cuts);
    this.#stages = stages.length;
  }

  /** Nothing booked. What is told of holes means nothing where nothing grows. */
  reset(): void {
    this.begun.fill(0);
    this.days.fill(0);
    this.waited.fill(0);
    this.deadCover.fill(0);
    this.deadLayers.fill(0);
    this.thrownL.fill(0);
    this.picked.fill(0);
    this.barren.fill(0);
    this.failed.fill(0);
  }

  /** The kind of stay of what stands in a hole of a stage. */
  kindOf({ cropOf, cutsLeft }: Holes, { place }: Stage, hole: number): number {
    const c = cropOf[hole]!;
    return (cutsLeft[hole] === this.#cuts[c] ? place : this.#stages) * this.#cuts.length + c;
  }

  /** Days that ready plants of a kind have waited up to `now` [d]. @param ready how many wait still */
  waitedBy(kind: number, ready: number, now: number): number {
    return this.waited[kind]! + ready * now;
  }
}
