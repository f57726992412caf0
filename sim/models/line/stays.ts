/**
 * What a season takes beyond its holes: booked while it runs, told at its end.
 *
 * A stay that was drawn as T days and ends ripe has T x F(1) days of light on leaves, and F(1) is the same for all stays of its kind. So
 * the days drawn are summed when stays begin, as if all of them were to end ripe; what dies is put right when it does, and what
 * grows still at the end of the season then (stay-totals.ts). Waiting is summed as moments: what leaves adds now, what ripens takes now off.
 * Of a season that is taken up in the middle what it takes from one moment to another is right, and only that.
 * These sums lie on the clock's grid and are exact. Nothing is allocated.
 */

import type { EventQueue } from '../../engine/event-queue.js';
import type { Draws } from '../growth.js';
import { DISCARDED, FAILED, LOST } from '../ledger.js';
import { type Plan, seasonDays } from '../plan.js';
import { FULL_VISIT, inUnits, type SeasonTakes, USUAL_VISIT } from '../takes.js';
import { DatedStays } from './dated-stays.js';
import { DIE, type Holes, RIPEN } from './holes.js';
import type { CropInStage, Stage } from './stage.js';
import { type StayPlan, stayPlan } from './stay-kinds.js';
import { StaySums } from './stay-sums.js';
import { StayTotals } from './stay-totals.js';
import { TankBook } from './tank-book.js';
import { WorkBook } from './work-book.js';

export class Stays {
  /** The same object in every season. */
  readonly takes: SeasonTakes;
  readonly #by: StayPlan;
  readonly #sums: StaySums;
  /** Of these sums, those that every stay touches. */
  readonly #begun: Float64Array;
  readonly #days: Float64Array;
  readonly #since: Float64Array;
  /** null where nothing is told of leaves and water. */
  readonly #totals: StayTotals | null;
  readonly #tank: TankBook | null;
  readonly #work: WorkBook | null;
  /** What was taken so far, in no unit: one figure for each column. */
  readonly #taken: Float64Array;
  /** What was done in the season up to now. */
  readonly #deeds = { sown: 0, moved: 0, picked: 0, cleared: 0, cleaned: 0 };
  /** null where no date makes a difference. */
  readonly #dated: DatedStays | null;

  /** @returns null where the plan tells of nothing but holes */
  static of(plan: Plan, holes: number): Stays | null {
    const by = stayPlan(plan);
    return by && new Stays(by, holes);
  }

  private constructor(by: StayPlan, holes: number) {
    this.#by = by;
    this.#sums = new StaySums(by.plan, holes);
    this.#begun = this.#sums.begun;
    this.#days = this.#sums.days;
    this.#since = this.#sums.since;
    this.#dated = DatedStays.of(by, this.#sums, holes);
    this.#totals = by.kinds.length === 0 ? null : new StayTotals(by, this.#sums, this.#dated);
    this.#tank = this.#totals && TankBook.of(by, this.#totals);
    this.#work = WorkBook.of(by);
    this.takes = { row: new Float64Array(by.columns.width), tank: null };
    this.#taken = new Float64Array(by.columns.width);
  }

  /** Nothing booked. @param season its number @param whole false: it is then taken up in the middle */
  reset(season: number, whole: boolean): void {
    this.#sums.reset();
    this.#dated?.reset();
    // How full a tank was then is not known.
    this.#tank?.reset(whole ? season : null);
    this.#work?.reset();
  }

  /** Whether anything is told of leaves and water. */
  get tellsOfLeaves(): boolean {
    return this.#totals !== null;
  }

  /**
   * A plant that stands when the season is taken up in the middle. Nothing of it is added to the sums: it would be the same at every moment
   * from then on.
   * @param since when it came in or was cut last [d] @param needs usual days that it would have needed, if it will die [d]
   * @param queue has what is to become of it
   */
  stand(holes: Holes, stage: Stage, hole: number, since: number, needs: number, queue: EventQueue): void {
    this.#since[hole] = since;
    const fate = holes.fate[hole]!;
    if (this.#dated !== null) {
      this.#dated.stand(this.#sums.kindOf(holes, stage, hole), hole, fate, needs, queue);
    } else if (fate === DIE) this.#sums.doomedDays[hole] = needs;
  }

  /** What stands in a hole begins to grow, with the `k`-th of `draws`, and what becomes of it is known, and when. */
  begin(kind: number, hole: number, fate: number, draws: Draws, k: number, queue: EventQueue): void {
    this.#begun[kind]!++;
    this.#since[hole] = queue.now;
    if (this.#dated !== null) this.#dated.begin(kind, hole, fate, draws.times[k]!, queue);
    else if (fate === RIPEN) this.#days[kind]! += draws.times[k]!;
    else if (fate === DIE) this.#sums.doomedDays[hole] = draws.times[k]!;
  }

  /** What was sown will not sprout. */
  sowBarren(crop: number): void {
    this.#sums.barren[crop]!++;
  }

  /** A plant is ready, and waits. */
  ripen({ kind }: CropInStage, { now }: EventQueue): void {
    if (this.#dated !== null) this.#dated.ripen(kind, now);
    else this.#sums.waited[kind]! -= now;
  }

  /** A plant that was ready waits no longer. */
  leave({ kind }: CropInStage, { now }: EventQueue): void {
    if (this.#dated !== null) this.#dated.leave(kind, now);
    else this.#sums.waited[kind]! += now;
  }

  /** A plant is picked. */
  pick(crop: number): void {
    this.#sums.picked[crop]!++;
  }

  /** A ready plant is thrown away. */
  discard({ kind, stage }: CropInStage): void {
    if (this.#totals !== null) this.#sums.thrownL[stage.place]! += this.#by.kinds[kind]!.toL;
  }

  /** A plant dies, or a seed proves to have failed: it is lost from now on, though it stands. */
  die(holes: Holes, { now }: EventQueue, stage: Stage, hole: number, died: boolean): void {
    if (!died) this.#sums.failed[holes.cropOf[hole]!]!++;
    else if (this.#totals !== null) this.#lose(holes, now, stage, hole);
  }

  #lose(holes: Holes, now: number, stage: Stage, hole: number): void {
    const { since, doomedDays, thrownL, deadCover, deadLayers } = this.#sums;
    const kind = this.#sums.kindOf(holes, stage, hole);
    const { litresAG, curve } = this.#by.kinds[kind]!;
    const s = stage.place;
    if (this.#dated !== null) {
      this.#dated.lose(kind, stage, hole, now);
      thrownL[s]! += litresAG * curve.massG(this.#dated.progress(kind, hole, now));
      return;
    }
    const drawn = doomedDays[hole]!;
    const u = (now - since[hole]!) / drawn;
    deadCover[s]! += drawn * curve.coverTime(u);
    deadLayers[s]! += drawn * curve.leafTime(u);
    thrownL[s]! += litresAG * curve.massG(u);
  }

  /** A visit comes, of which nothing is done yet. */
  visit(stages: readonly Stage[], holes: Holes, queue: EventQueue): void {
    this.#tank?.visit(stages, holes, queue);
  }

  /** A visit is over. @param counts of the season */
  visited(stages: readonly Stage[], counts: Float64Array): void {
    if (this.#work === null) return;
    this.#countDeeds(stages, counts);
    this.#work.visited(this.#deeds);
  }

  /** The season is over: tell what it took. @param counts of the season */
  end(stages: readonly Stage[], holes: Holes, queue: EventQueue, counts: Float64Array): void {
    const { plan, columns } = this.#by;
    const taken = this.takenBy(stages, holes, queue, counts, seasonDays(plan));
    if (this.#tank !== null) {
      this.takes.tank = this.#tank.end(this.#totals!.usedL);
      taken[columns.usedByLastVisit] = this.#tank.usedL;
    }
    if (this.#work !== null) {
      taken[columns.usualVisit] = this.#work.quantile(USUAL_VISIT);
      taken[columns.fullVisit] = this.#work.quantile(FULL_VISIT);
    }
    const { row } = this.takes;
    // Nothing lies below 0 but by rounding.
    for (let i = 0; i < row.length; i++) row[i] = inUnits(Math.max(0, taken[i]!), columns.units[i]!);
  }

  /**
   * What was taken by a moment of which nothing has happened yet, as far as it was booked. Of the tank and of single visits nothing.
   * @param counts of the season @param moment now, or since the last event [d] @returns the same array at every call
   */
  takenBy(
    stages: readonly Stage[],
    holes: Holes,
    queue: EventQueue,
    counts: Float64Array,
    moment: number,
  ): Float64Array {
    const row = this.#taken;
    const totals = this.#totals;
    const { columns } = this.#by;
    this.#tellDeeds(row, stages, counts);
    row[columns.usedByLastVisit] = 0;
    row[columns.usualVisit] = 0;
    row[columns.fullVisit] = 0;
    if (totals === null) return row;
    totals.take(stages, holes, queue, moment, false);
    for (let s = 0; s < stages.length; s++) {
      row[columns.leafDays(s)] = totals.cover[s]!;
      row[columns.transpired(s)] = totals.givenOffL[s]!;
    }
    row[columns.standing] = totals.standingL;
    row[columns.thrownOut] = totals.thrownL;
    return row;
  }

  #tellDeeds(row: Float64Array, stages: readonly Stage[], counts: Float64Array): void {
    const { plan, columns } = this.#by;
    const { begun, picked } = this.#sums;
    const crops = plan.crops.length;
    for (let c = 0; c < crops; c++) {
      row[columns.sown(c)] = begun[stages[0]!.place * crops + c]!;
      row[columns.picked(c)] = picked[c]!;
    }
    this.#countDeeds(stages, counts);
    row[columns.moved] = this.#deeds.moved;
    row[columns.cleared] = this.#deeds.cleared;
    row[columns.cleaned] = this.#deeds.cleaned;
  }

  #countDeeds(stages: readonly Stage[], counts: Float64Array): void {
    const { begun, picked } = this.#sums;
    const crops = picked.length;
    let sown = 0;
    let moved = 0;
    let cleaned = 0;
    let picks = 0;
    let cleared = counts[FAILED]! + counts[LOST]! + counts[DISCARDED]!;
    for (let c = 0; c < crops; c++) picks += picked[c]!;
    for (let s = 0; s < stages.length; s++) {
      const stage = stages[s]!;
      let come = 0;
      for (let c = 0; c < crops; c++) come += begun[stage.place * crops + c]!;
      if (stage.before === null) sown += come;
      else moved += come;
      // Whoever came and is not here has left the hole.
      if (stage.cleanDays > 0) cleaned += come - stage.growing - stage.ready - stage.dead;
      cleared -= stage.dead;
    }
    const deeds = this.#deeds;
    deeds.sown = sown;
    deeds.moved = moved;
    deeds.picked = picks;
    deeds.cleared = cleared;
    deeds.cleaned = cleaned;
  }
}
