/**
 * What a season takes beyond its holes: booked while it runs, told at its end (stays-end.ts).
 *
 * A stay that was drawn as T days and ends ripe has T x F(1) days of light on leaves, and F(1) is the same for all stays of its kind. So
 * the days drawn are summed when stays begin, as if all of them were to end ripe; what dies is put right when it does, and what
 * still grows at the end of the season then. Waiting is summed as moments: what leaves adds now, what ripens takes now off. These sums
 * lie on the clock's grid and are exact. Nothing is allocated.
 */

import type { EventQueue } from '../../engine/event-queue.js';
import type { Draws } from '../growth.js';
import { plantL } from '../physical/line-matter.js';
import type { Plan } from '../plan.js';
import type { SeasonTakes } from '../takes.js';
import { DIE, FAIL, type Holes } from './holes.js';
import type { CropInStage, Stage } from './stage.js';
import { type StayPlan, stayPlan } from './stay-kinds.js';
import { StaySums } from './stay-sums.js';
import { tellTakes } from './stays-end.js';
import { TankBook } from './tank-book.js';

export class Stays {
  /** The same object in every season. */
  readonly takes: SeasonTakes;
  readonly #by: StayPlan;
  readonly #sums: StaySums;
  readonly #tank: TankBook | null;
  /** Are stays followed, or only counted? */
  readonly #follows: boolean;
  readonly #crops: number;

  /** @returns null where the plan tells of nothing but holes */
  static of(plan: Plan, holes: number): Stays | null {
    const by = stayPlan(plan);
    return by && new Stays(by, holes);
  }

  private constructor(by: StayPlan, holes: number) {
    this.#by = by;
    this.#sums = new StaySums(by.plan, holes);
    this.#tank = TankBook.of(by, this.#sums);
    this.#follows = by.kinds.length > 0;
    this.#crops = by.plan.crops.length;
    this.takes = { row: new Float64Array(by.columns.width), tank: null };
  }

  /** Nothing booked. @param season its number */
  reset(season: number): void {
    this.#sums.reset();
    this.#tank?.reset(season);
  }

  /** What stands in a hole begins to grow, with the `k`-th of `draws`. */
  begin(holes: Holes, { now }: EventQueue, stage: Stage, hole: number, draws: Draws, k: number): void {
    const { begun, doomed, days, failing, spans } = this.#sums;
    const kind = this.#sums.kindOf(holes, stage, hole);
    begun[kind]!++;
    if (!this.#follows) return;
    const fate = holes.fate[hole]!;
    const drawn = draws.times[k]!;
    if (fate === FAIL) {
      doomed[kind]!++;
      failing[holes.cropOf[hole]!]!++;
      spans[2 * hole] = 0;
    } else if (fate === DIE) {
      doomed[kind]!++;
      spans[2 * hole] = -drawn;
    } else {
      days[kind]! += drawn;
      spans[2 * hole] = drawn;
    }
    spans[2 * hole + 1] = now;
  }

  /** A plant is ready, and waits. */
  ripen({ stage, c }: CropInStage, { now }: EventQueue): void {
    this.#sums.waited[stage.place * this.#crops + c]! -= now;
  }

  /** A plant that was ready waits no longer. */
  leave({ stage, c }: CropInStage, { now }: EventQueue): void {
    this.#sums.waited[stage.place * this.#crops + c]! += now;
  }

  /** A plant is picked. */
  pick(crop: number): void {
    this.#sums.picked[crop]!++;
  }

  /** A ready plant is thrown away. */
  discard({ stage, c }: CropInStage): void {
    if (this.#follows) this.#sums.thrownL[stage.place]! += this.#by.kinds[stage.place * this.#crops + c]!.toL;
  }

  /** A plant dies, or a seed proves to have failed: it is lost from now on, though it stands. */
  die(holes: Holes, { now }: EventQueue, stage: Stage, hole: number, died: boolean): void {
    if (!this.#follows) return;
    const { failing, spans, thrownL, deadCover, deadLayers, deadKeptL } = this.#sums;
    const { fromL, curve } = this.#by.kinds[this.#sums.kindOf(holes, stage, hole)]!;
    const c = holes.cropOf[hole]!;
    const s = stage.place;
    if (!died) {
      failing[c]!--;
      thrownL[s]! += fromL;
      return;
    }
    const drawn = -spans[2 * hole]!;
    const u = (now - spans[2 * hole + 1]!) / drawn;
    const l = plantL(this.#by.matter, c, curve.massG(u));
    deadCover[s]! += drawn * curve.coverTime(u);
    deadLayers[s]! += drawn * curve.leafTime(u);
    deadKeptL[s]! += l - fromL;
    thrownL[s]! += l;
    spans[2 * hole] = 0;
  }

  /** A visit comes, of which nothing is done yet. */
  visit(stages: readonly Stage[], holes: Holes, queue: EventQueue): void {
    this.#tank?.visit(stages, holes, queue);
  }

  /** The season is over. @param counts of it */
  end(stages: readonly Stage[], holes: Holes, counts: Float64Array): void {
    const usedL = tellTakes(this.takes.row, this.#by, this.#sums, stages, holes, counts);
    this.takes.tank = this.#tank?.end(this.takes.row, usedL) ?? null;
  }
}
