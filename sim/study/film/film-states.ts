/**
 * The state of every hole of a line at every moment, told from what an `EventObserver` hears.
 *
 * It hears what happens to plants. What it does not hear follows from the plan, by the rules of the line; how many holes
 * are in each state is told by the very stages that the line books its ledger from (models/line/stage.ts):
 *
 * - A visit sees every ready plant. What it leaves standing is blocked, or held in the last stage, until it goes.
 * - A hole that a plant has left is cleaned for `clean_days`; the first visit at or after the end of that takes it back
 *   into use, before anything else is done at that visit.
 * - Plants can be ready to come into a stage from the first ripening in the stage before (first stage: sowing) on.
 * - With `visits: always` every moment is a visit.
 *
 * Several things happen at one moment; only how it leaves the holes counts.
 */

import {
  BLOCKED,
  CLEANING,
  DEAD,
  FILLING,
  GROWING,
  HELD,
  UNATTENDED,
  UNSUPPLIED,
  UNTENDED,
} from '../../models/ledger.js';
import type { EventObserver, PlantEvent } from '../../models/line/line.js';
import { type Stage, stagesOf } from '../../models/line/stage.js';
import { type Plan, seasonDays } from '../../models/plan.js';

/** Hears that nothing changes after `from` and before `to` [d from the start]: the states of `from` last until then. */
export type IntervalListener = (from: number, to: number) => void;

/** Room for so many plants at first; doubled when it is full. */
const FIRST_PLANTS = 1024;

export class HoleStates implements EventObserver {
  readonly #lasting: IntervalListener;
  readonly #days: number;
  readonly #always: boolean;
  readonly #visitDays: readonly number[];
  #visitNext = 0;
  /** The moment whose doings are being heard of [d]. */
  #now = 0;
  /** Is somebody there now? */
  #tended = false;

  /** Kept up as the line keeps its own; what of a hole nobody hears follows from them. */
  readonly #stages: readonly Stage[];
  /** Chain of the holes of each stage that are not in use yet, first left first: all are cleaned for equally long. */
  readonly #cleanHead: Int32Array;
  readonly #cleanTail: Int32Array;

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
    const stages = stagesOf(plan);
    const holes = stages.at(-1)!.beyond;
    this.#lasting = lasting;
    this.#days = seasonDays(plan);
    this.#always = plan.visits.kind === 'always';
    this.#visitDays = plan.visits.kind === 'days' ? plan.visits.days : [];
    this.#stages = stages;
    this.#cleanHead = new Int32Array(stages.length).fill(-1);
    this.#cleanTail = new Int32Array(stages.length).fill(-1);
    this.#states = new Uint8Array(holes).fill(UNSUPPLIED);
    this.#cutsLeft = new Uint8Array(holes);
    this.#cleanUntil = new Float64Array(holes);
    this.#cleanAfter = new Int32Array(holes);
    this.#unseen = new Int32Array(holes);
    this.#cuts = plan.crops.map((crop) => crop.cuts);
    this.#arrive(0);
  }

  onEvent(t: number, event: PlantEvent, plant: number, crop: number, place: number, hole: number): void {
    while (this.#now < t) this.#goOn(t);
    const stage = this.#stages[place]!;
    switch (event) {
      case 'sow':
        stage.reached = true;
        this.#enter(hole, stage, plant, crop);
        break;
      case 'move':
        this.#leave(this.#holeOf[plant]!);
        this.#enter(hole, stage, plant, crop);
        break;
      case 'ripen':
        if (stage.next !== null) stage.next.reached = true;
        this.#set(hole, stage, UNATTENDED);
        this.#unseen[this.#unseenCount++] = hole;
        break;
      case 'die':
      case 'fail':
        this.#set(hole, stage, DEAD);
        break;
      case 'pick':
        if (--this.#cutsLeft[hole]! > 0) this.#set(hole, stage, GROWING);
        else this.#leave(hole);
        break;
      case 'discard':
      case 'clear':
        this.#leave(hole);
        break;
    }
  }

  /** Let the season go on to its end, once nothing more is heard. */
  end(): void {
    while (this.#now < this.#days) this.#goOn(this.#days);
  }

  /** Holes of each stage in each state now, into `target`, which holds 0 there, from `at` on. */
  putCounts(target: Uint32Array, at: number): void {
    const counts = {
      set: (i: number, level: number): void => {
        target[at + i] = level;
      },
    };
    for (const stage of this.#stages) stage.tellLevels(counts, this.#now);
  }

  /** The state of every hole now, into `target` from `at` on. */
  putStates(target: Uint8Array, at: number): void {
    target.set(this.#states, at);
    for (const { first, beyond, reached, untended } of this.#stages) {
      // Nobody ever came: all of the stage is empty.
      if (!reached) target.fill(FILLING, at + first, at + beyond);
      for (let hole = first, left = untended; left > 0; hole++) {
        if (this.#states[hole] !== UNSUPPLIED) continue;
        target[at + hole] = UNTENDED;
        left--;
      }
    }
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
    for (const stage of this.#stages) {
      let hole = this.#cleanHead[stage.place]!;
      for (; hole >= 0 && this.#cleanUntil[hole]! <= t; hole = this.#cleanAfter[hole]!) {
        this.#set(hole, stage, UNSUPPLIED);
      }
      this.#cleanHead[stage.place] = hole;
    }
  }

  /** The visit of this moment is over: it has seen every plant that is ready, and left those that still stand. */
  #seeAll(): void {
    for (let i = 0; i < this.#unseenCount; i++) {
      const hole = this.#unseen[i]!;
      if (this.#states[hole] !== UNATTENDED) continue;
      const stage = this.#stageOf(hole);
      this.#set(hole, stage, stage.next === null ? HELD : BLOCKED);
    }
    this.#unseenCount = 0;
  }

  /* ---- holes ---- */

  #enter(hole: number, stage: Stage, plant: number, crop: number): void {
    this.#set(hole, stage, GROWING);
    this.#cutsLeft[hole] = this.#cuts[crop]!;
    if (plant >= this.#holeOf.length) {
      const wider = new Int32Array(2 * plant);
      wider.set(this.#holeOf);
      this.#holeOf = wider;
    }
    this.#holeOf[plant] = hole;
  }

  #leave(hole: number): void {
    const stage = this.#stageOf(hole);
    const { place, cleanDays } = stage;
    if (cleanDays === 0) {
      this.#set(hole, stage, UNSUPPLIED);
      return;
    }
    this.#set(hole, stage, CLEANING);
    this.#cleanUntil[hole] = this.#now + cleanDays;
    this.#cleanAfter[hole] = -1;
    if (this.#cleanHead[place]! < 0) this.#cleanHead[place] = hole;
    else this.#cleanAfter[this.#cleanTail[place]!] = hole;
    this.#cleanTail[place] = hole;
  }

  #set(hole: number, stage: Stage, state: number): void {
    count(stage, this.#states[hole]!, -1);
    count(stage, state, 1);
    this.#states[hole] = state;
  }

  #stageOf(hole: number): Stage {
    return this.#stages.find(({ beyond }) => hole < beyond)!;
  }
}

/** Count `change` holes into a state of a stage; empty ones are all UNSUPPLIED. */
function count(stage: Stage, state: number, change: number): void {
  if (state === GROWING) stage.growing += change;
  else if (state === DEAD) stage.dead += change;
  else if (state === CLEANING) stage.cleaning += change;
  else if (state === UNSUPPLIED) stage.free += change;
  else {
    stage.ready += change;
    if (state === UNATTENDED) stage.unseen += change;
  }
}
