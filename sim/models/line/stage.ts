/** A stage: how its holes are filled, the chains that they form, and the states in which they are booked. */

import { toGrid } from '../../engine/clock.js';
import type { Levels } from '../../engine/tally.js';
import type { Draws } from '../growth.js';
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
} from '../ledger.js';
import { holesOf, type Plan } from '../plan.js';
import * as route from '../route.js';

/** A stage with all its holes. Whoever keeps its counts up to date can have its levels told. */
export class Stage {
  /** Its place in the plan. */
  readonly place: number;
  /** Its first hole, counted through all stages, and the first one beyond it. */
  readonly first: number;
  readonly beyond: number;
  /** Days that a hole is out of use after a plant has left it [d, on the grid]. */
  readonly cleanDays: number;
  /** The stages before and after it; null if there is none. */
  readonly before: Stage | null;
  next: Stage | null = null;
  /** What each crop does here; nothing where crops do not matter. */
  crops: readonly CropInStage[] = [];

  /* Holes, by what they hold. */
  /** Nothing, and in use. */
  free = 0;
  growing = 0;
  ready = 0;
  /** Ready plants that no visit has seen; not kept up while a visit is at work, which sees them all. */
  unseen = 0;
  dead = 0;
  cleaning = 0;

  /** Was a plant ever ready to come in? */
  reached = false;
  /** May the levels have changed since they were booked? */
  touched = true;
  /** Chains of holes to be cleared, and of holes whose cleaning is over; -1 at the end. */
  deadHead = -1;
  cleanedHead = -1;

  constructor(plan: Plan, place: number, before: Stage | null) {
    const stage = plan.stages[place]!;
    this.place = place;
    this.first = before?.beyond ?? 0;
    this.beyond = this.first + holesOf(stage);
    this.cleanDays = toGrid(stage.cleanDays);
    this.before = before;
    if (before !== null) before.next = this;
    this.reset();
  }

  /** All holes empty, and nobody ever here. */
  reset(): void {
    this.free = this.beyond - this.first;
    this.growing = 0;
    this.ready = 0;
    this.unseen = 0;
    this.dead = 0;
    this.cleaning = 0;
    this.reached = false;
    this.touched = true;
    this.deadHead = -1;
    this.cleanedHead = -1;
  }

  /** Empty holes that ready plants of the stage before, which no visit has seen, will be brought to. */
  get untended(): number {
    return this.reached && this.before !== null ? Math.min(this.free, this.before.unseen) : 0;
  }

  /** Tell the levels of the ledger, how many holes are in each state, as they stand from `t` on. */
  tellLevels(levels: Pick<Levels, 'set'>, t: number): void {
    const at = this.place * STATE_COUNT;
    const { free, unseen, untended, reached, next } = this;
    levels.set(at + GROWING, this.growing, t);
    levels.set(at + DEAD, this.dead, t);
    levels.set(at + UNATTENDED, unseen, t);
    levels.set(at + (next === null ? HELD : BLOCKED), this.ready - unseen, t);
    levels.set(at + CLEANING, this.cleaning, t);
    levels.set(at + FILLING, reached ? 0 : free, t);
    levels.set(at + UNTENDED, untended, t);
    levels.set(at + UNSUPPLIED, reached ? free - untended : 0, t);
  }
}

/** A crop in one stage. */
export class CropInStage {
  /** Place of the crop in the plan. */
  readonly c: number;
  readonly stage: Stage;
  /** The stage into which its plants go; null if they are picked here. */
  readonly next: Stage | null;
  /** Days that a ready plant stays good [d, on the grid]. */
  readonly keeps: number;
  readonly draws: Draws;
  /** The number of its kind of stay, and of that between two cuts (see stay-kinds.ts). */
  readonly kind: number;
  readonly cutKind: number;
  /** Its ready plants, longest ready first: a chain both ways. */
  readyHead = -1;
  readyTail = -1;
  /** Is there an event for the end of keeping; has it come (only with `always`)? */
  keepsPending = false;
  keepsOver = false;
  /** Plants that stand, known dead ones not counted. */
  standing = 0;

  constructor(plan: Plan, c: number, stage: Stage, next: Stage | null, draws: Draws) {
    const { stages } = plan.crops[c]!;
    this.c = c;
    this.kind = stage.place * plan.crops.length + c;
    this.cutKind = plan.stages.length * plan.crops.length + c;
    this.stage = stage;
    this.next = next;
    this.keeps = toGrid(stages[stage.place]!.keeps);
    this.draws = draws;
  }

  /** No plant here, and the luck of a season. */
  reset(seed: number, season: number): void {
    this.draws.start(seed, season);
    this.readyHead = -1;
    this.readyTail = -1;
    this.keepsPending = false;
    this.keepsOver = false;
    this.standing = 0;
  }
}

/** How many plants of a crop stand ready. */
export function readyOf({ readyHead }: CropInStage, { after }: { readonly after: Int32Array }): number {
  let ready = 0;
  for (let hole = readyHead; hole >= 0; hole = after[hole]!) ready++;
  return ready;
}

/** The stages of a line, in order, with all holes empty. */
export function stagesOf(plan: Plan): Stage[] {
  const stages: Stage[] = [];
  for (let place = route.first(plan); place >= 0; place = route.next(plan, place))
    stages.push(new Stage(plan, place, stages.at(-1) ?? null));
  return stages;
}
