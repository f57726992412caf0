/**
 * The state of every hole of a line at every moment, told from what a `Recorder` hears.
 *
 * A recorder hears what happens to plants. What it does not hear follows from the plan, by the rules that the line
 * books its ledger by (models/line.ts, models/ledger.ts):
 *
 * - A visit sees every ready plant. What it leaves standing is blocked, or held in the last stage, until it goes.
 * - A hole that a plant has left is cleaned for `clean_days`; the first visit at or after the end of that takes it back
 *   into use, before anything else is done at that visit.
 * - Plants can be ready to come into a stage from the first ripening in the stage before (first stage: sowing) on.
 * - With `visits: always` every moment is a visit.
 *
 * Several things happen at one moment; only how it leaves the holes counts.
 */

import { toGrid } from '../../engine/clock.js';
import {
  BLOCKED,
  CLEANING,
  DEAD,
  FILLING,
  GROWING,
  HELD,
  STATE_COUNT,
  UNATTENDED,
  UNSUPPLIED,
  UNTENDED,
} from '../../models/ledger.js';
import type { EventObserver, PlantEvent } from '../../models/line/line.js';
import { holesOf, type Plan, seasonDays } from '../../models/plan.js';

/** Hears that nothing changes after `from` and before `to` [d from the start]: the states of `from` last until then. */
export type IntervalListener = (from: number, to: number) => void;

/** Room for so many plants at first; doubled when it is full. */
const FIRST_PLANTS = 1024;

export class HoleStates implements EventObserver {
  readonly #lasting: IntervalListener;
  readonly #days: number;
  readonly #stageCount: number;
  readonly #always: boolean;
  readonly #visitDays: readonly number[];
  #visitNext = 0;
  /** The moment whose doings are being heard of [d]. */
  #now = 0;
  /** Is somebody there now? */
  #tended = false;

  /* By stage. */
  readonly #firstHole: Int32Array;
  readonly #cleanDays: Float64Array;
  /** 1 once a plant was ready to come into the stage. */
  readonly #reached: Uint8Array;
  /** Chain of the holes that are not in use yet, first left first: all of a stage are cleaned for equally long. */
  readonly #cleanHead: Int32Array;
  readonly #cleanTail: Int32Array;
  /** Holes in each state, empty ones all under UNSUPPLIED: s x STATE_COUNT + state. */
  readonly #counts: Int32Array;

  /* By hole. */
  /** Its state; empty ones are all UNSUPPLIED. */
  readonly #states: Uint8Array;
  readonly #cutsLeft: Uint8Array;
  readonly #cleanUntil: Float64Array;
  readonly #cleanAfter: Int32Array;
  /** Holes whose plants no visit has seen ready. */
  readonly #unseen: Int32Array;
  #unseenCount = 0;

  readonly #cuts: readonly number[];
  /** Hole of each plant that stands. */
  #holeOf = new Int32Array(FIRST_PLANTS);

  /** @param lasting hears of every stretch of the season, one after the other from day 0 to its end */
  constructor(plan: Plan, lasting: IntervalListener) {
    const stages = plan.stages.length;
    this.#lasting = lasting;
    this.#days = seasonDays(plan);
    this.#stageCount = stages;
    this.#always = plan.visits.kind === 'always';
    this.#visitDays = plan.visits.kind === 'days' ? plan.visits.days : [];
    this.#firstHole = new Int32Array(stages + 1);
    for (let s = 0; s < stages; s++) this.#firstHole[s + 1] = this.#firstHole[s]! + holesOf(plan.stages[s]!);
    this.#cleanDays = Float64Array.from(plan.stages, (stage) => toGrid(stage.cleanDays));
    this.#reached = new Uint8Array(stages);
    this.#cleanHead = new Int32Array(stages).fill(-1);
    this.#cleanTail = new Int32Array(stages).fill(-1);
    this.#counts = new Int32Array(stages * STATE_COUNT);
    plan.stages.forEach((stage, s) => {
      this.#counts[s * STATE_COUNT + UNSUPPLIED] = holesOf(stage);
    });
    const holes = this.#firstHole[stages]!;
    this.#states = new Uint8Array(holes).fill(UNSUPPLIED);
    this.#cutsLeft = new Uint8Array(holes);
    this.#cleanUntil = new Float64Array(holes);
    this.#cleanAfter = new Int32Array(holes);
    this.#unseen = new Int32Array(holes);
    this.#cuts = plan.crops.map((crop) => crop.cuts);
    this.#arrive(0);
  }

  onEvent(t: number, event: PlantEvent, plant: number, crop: number, stage: number, hole: number): void {
    while (this.#now < t) this.#goOn(t);
    switch (event) {
      case 'sow':
        this.#reached[0] = 1;
        this.#enter(hole, stage, plant, crop);
        break;
      case 'move':
        this.#leave(this.#holeOf[plant]!, stage - 1);
        this.#enter(hole, stage, plant, crop);
        break;
      case 'ripen':
        if (stage + 1 < this.#stageCount) this.#reached[stage + 1] = 1;
        this.#set(hole, stage, UNATTENDED);
        this.#unseen[this.#unseenCount++] = hole;
        break;
      case 'die':
      case 'fail':
        this.#set(hole, stage, DEAD);
        break;
      case 'pick':
        if (--this.#cutsLeft[hole]! > 0) this.#set(hole, stage, GROWING);
        else this.#leave(hole, stage);
        break;
      case 'discard':
      case 'clear':
        this.#leave(hole, stage);
        break;
    }
  }

  /** Let the season go on to its end, once nothing more is heard. */
  end(): void {
    while (this.#now < this.#days) this.#goOn(this.#days);
  }

  /** Holes of stage `s` in each state now, into `target` from `at` on. */
  putCounts(s: number, target: Uint32Array, at: number): void {
    const from = s * STATE_COUNT;
    for (let k = 0; k < STATE_COUNT; k++) target[at + k] = this.#counts[from + k]!;
    const empty = this.#counts[from + UNSUPPLIED]!;
    const untended = this.#untended(s);
    target[at + FILLING] = this.#reached[s] === 0 ? empty : 0;
    target[at + UNTENDED] = untended;
    target[at + UNSUPPLIED] = this.#reached[s] === 0 ? 0 : empty - untended;
  }

  /** The state of every hole now, into `target` from `at` on. */
  putStates(target: Uint8Array, at: number): void {
    target.set(this.#states, at);
    for (let s = 0; s < this.#stageCount; s++) {
      const first = this.#firstHole[s]!;
      // Nobody ever came: all of the stage is empty.
      if (this.#reached[s] === 0) target.fill(FILLING, at + first, at + this.#firstHole[s + 1]!);
      let untended = this.#untended(s);
      for (let hole = first; untended > 0; hole++) {
        if (this.#states[hole] !== UNSUPPLIED) continue;
        target[at + hole] = UNTENDED;
        untended--;
      }
    }
  }

  /** Empty holes of stage `s` that a plant of the stage before waits to be brought to. */
  #untended(s: number): number {
    if (s === 0) return 0;
    const empty = this.#counts[s * STATE_COUNT + UNSUPPLIED]!;
    return Math.min(empty, this.#counts[(s - 1) * STATE_COUNT + UNATTENDED]!);
  }

  /* ---- time ---- */

  /** To the next moment at which something changes by itself, or to `t` if that comes first. */
  #goOn(t: number): void {
    const next = Math.min(t, this.#nextByItself());
    if (this.#tended) this.#seeAll();
    this.#lasting(this.#now, next);
    this.#now = next;
    if (next < this.#days) this.#arrive(next);
  }

  /** The next visit; with `always` the next end of a cleaning. */
  #nextByItself(): number {
    if (!this.#always) return this.#visitDays[this.#visitNext] ?? Infinity;
    let next = Infinity;
    for (const hole of this.#cleanHead) if (hole >= 0) next = Math.min(next, this.#cleanUntil[hole]!);
    return next;
  }

  #arrive(t: number): void {
    this.#tended = this.#always;
    if (this.#visitDays[this.#visitNext] === t) {
      this.#visitNext++;
      this.#tended = true;
    }
    if (this.#tended) this.#takeBack(t);
  }

  /** A visit takes the holes whose cleaning is over back into use. */
  #takeBack(t: number): void {
    for (let s = 0; s < this.#stageCount; s++) {
      let hole = this.#cleanHead[s]!;
      for (; hole >= 0 && this.#cleanUntil[hole]! <= t; hole = this.#cleanAfter[hole]!) {
        this.#set(hole, s, UNSUPPLIED);
      }
      this.#cleanHead[s] = hole;
    }
  }

  /** The visit of this moment is over: it has seen every plant that is ready, and left those that still stand. */
  #seeAll(): void {
    const last = this.#firstHole[this.#stageCount - 1]!;
    for (let i = 0; i < this.#unseenCount; i++) {
      const hole = this.#unseen[i]!;
      if (this.#states[hole] !== UNATTENDED) continue;
      if (hole >= last) this.#set(hole, this.#stageCount - 1, HELD);
      else this.#set(hole, this.#stageOf(hole), BLOCKED);
    }
    this.#unseenCount = 0;
  }

  /* ---- holes ---- */

  #enter(hole: number, s: number, plant: number, crop: number): void {
    this.#set(hole, s, GROWING);
    this.#cutsLeft[hole] = this.#cuts[crop]!;
    if (plant >= this.#holeOf.length) {
      const wider = new Int32Array(2 * plant);
      wider.set(this.#holeOf);
      this.#holeOf = wider;
    }
    this.#holeOf[plant] = hole;
  }

  #leave(hole: number, s: number): void {
    const cleanDays = this.#cleanDays[s]!;
    if (cleanDays === 0) {
      this.#set(hole, s, UNSUPPLIED);
      return;
    }
    this.#set(hole, s, CLEANING);
    this.#cleanUntil[hole] = this.#now + cleanDays;
    this.#cleanAfter[hole] = -1;
    if (this.#cleanHead[s]! < 0) this.#cleanHead[s] = hole;
    else this.#cleanAfter[this.#cleanTail[s]!] = hole;
    this.#cleanTail[s] = hole;
  }

  #set(hole: number, s: number, state: number): void {
    this.#counts[s * STATE_COUNT + this.#states[hole]!]!--;
    this.#counts[s * STATE_COUNT + state]!++;
    this.#states[hole] = state;
  }

  #stageOf(hole: number): number {
    let s = 0;
    while (hole >= this.#firstHole[s + 1]!) s++;
    return s;
  }
}
