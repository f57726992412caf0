/**
 * What stands in every hole, and the chains of ready plants.
 *
 * A hole is an integer, counted through all stages; what stands in it is spread over arrays by that integer. A hole is in at
 * most one chain: of the ready plants of a crop in a stage, of holes to be cleared, or of holes whose cleaning is over.
 */

import type { Columns } from '../../engine/columns.js';
import type { CropInStage, Stage } from './stage.js';

/** What a hole's pending event means. */
export const RIPEN = 1;
export const DIE = 2;
export const FAIL = 3;
export const CLEANED = 4;

/** The holes of all stages. */
export class Holes {
  readonly stageOf: Uint8Array;
  /** What its pending event means. */
  readonly fate: Uint8Array;
  readonly cropOf: Uint8Array;
  readonly plantOf: Int32Array;
  readonly cutsLeft: Uint8Array;
  readonly readyAt: Float64Array;
  /** The next hole of its chain, -1 at the end; and the one before it, kept up for ready plants only. */
  readonly after: Int32Array;
  readonly before: Int32Array;
  /** The free holes of each stage: a stack from the stage's first hole on. */
  readonly #free: Int32Array;

  /** @param columns memory for its use */
  constructor(stages: readonly Stage[], columns: Columns) {
    const holes = stages.at(-1)!.beyond;
    this.stageOf = columns.make(Uint8Array, holes);
    for (const stage of stages) this.stageOf.fill(stage.place, stage.first, stage.beyond);
    this.fate = columns.make(Uint8Array, holes);
    this.cropOf = columns.make(Uint8Array, holes);
    this.plantOf = columns.make(Int32Array, holes);
    this.cutsLeft = columns.make(Uint8Array, holes);
    this.readyAt = columns.make(Float64Array, holes);
    this.after = columns.make(Int32Array, holes);
    this.before = columns.make(Int32Array, holes);
    this.#free = columns.make(Int32Array, holes);
  }

  /** All holes of the stages are free. */
  reset(stages: readonly Stage[]): void {
    for (const { first, beyond } of stages) {
      // Turned round, so that the stack hands out the lowest hole first.
      for (let hole = first; hole < beyond; hole++) this.#free[hole] = first + beyond - 1 - hole;
    }
    this.fate.fill(0);
  }

  /** Take a free hole of a stage. */
  take(stage: Stage): number {
    return this.#free[stage.first + --stage.free]!;
  }

  /** Bring a hole of a stage (back) into use. */
  giveBack(stage: Stage, hole: number): void {
    this.#free[stage.first + stage.free++] = hole;
  }

  /** Put a ready plant behind those that were ready before, or at the same instant with a lower plant number. */
  queueReady(crop: CropInStage, hole: number): void {
    let before = crop.readyTail;
    while (before >= 0 && this.#isSooner(hole, before)) before = this.before[before]!;
    const after = before >= 0 ? this.after[before]! : crop.readyHead;
    this.before[hole] = before;
    this.after[hole] = after;
    if (before >= 0) this.after[before] = hole;
    else crop.readyHead = hole;
    if (after >= 0) this.before[after] = hole;
    else crop.readyTail = hole;
  }

  /** Take the plant that has been ready longest out of its crop's chain. @returns its hole */
  unqueueReady(crop: CropInStage): number {
    const hole = crop.readyHead;
    const after = this.after[hole]!;
    crop.readyHead = after;
    if (after >= 0) this.before[after] = -1;
    else crop.readyTail = -1;
    return hole;
  }

  /** The crop whose first ready plant has been ready longest in a stage; one without any if there is none. */
  longestReady({ crops }: Stage): CropInStage {
    let best = crops[0]!;
    for (let c = 1; c < crops.length; c++) {
      const { readyHead } = crops[c]!;
      if (readyHead >= 0 && (best.readyHead < 0 || this.#isSooner(readyHead, best.readyHead)))
        best = crops[c]!;
    }
    return best;
  }

  /** Was the plant in `hole` ready before that in `other`, or at the same instant with a lower plant number? */
  #isSooner(hole: number, other: number): boolean {
    const sooner = this.readyAt[hole]! - this.readyAt[other]!;
    return sooner < 0 || (sooner === 0 && this.plantOf[hole]! < this.plantOf[other]!);
  }
}
