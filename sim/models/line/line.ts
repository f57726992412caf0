/**
 * The line: sowing, growing, moving, picking, clearing. One algorithm, hence one long file.
 *
 * A hole is an integer; what stands in it is spread over typed arrays by that integer. Each hole has at most one
 * pending event (its plant ripens, dies or proves a failed seed; its cleaning ends), so hole numbers are also event
 * numbers; behind them come the events of the calendar. The loop takes all events of one instant, then lets
 * the visit of that instant, if there is one, do its work. Nothing is allocated while a season runs.
 */

import { toGrid } from '../../engine/clock.js';
import { EventQueue } from '../../engine/event-queue.js';
import { Levels } from '../../engine/tally.js';
import { type Draws, RandomDraws } from '../growth.js';
import type { InitialState } from '../initial-state.js';
import {
  BLOCKED,
  CLEANING,
  COUNTS,
  DEAD,
  DISCARDED,
  FAILED,
  FILLING,
  GROWING,
  HELD,
  LOST,
  PICKED,
  PICKED_OUT,
  type Season,
  SHORT,
  SOWN,
  STANDING,
  STATE_COUNT,
  UNATTENDED,
  UNSOWN,
  UNSUPPLIED,
  UNTENDED,
  WANTED,
} from '../ledger.js';
import { holesOf, type Plan, seasonDays } from '../plan.js';
import { type Refill, refills, seedsToRefill } from '../refill.js';

/** What a hole's pending event means. */
const RIPEN = 1;
const DIE = 2;
const FAIL = 3;
const CLEANED = 4;

/** What happened to a plant, for a `Recorder`. */
export type PlantEvent = 'sow' | 'move' | 'ripen' | 'die' | 'fail' | 'pick' | 'discard' | 'clear';

/** Hears of everything that happens, in order. Costs time; for logs, pictures and tests. */
export interface EventObserver {
  /**
   * @param t days from the start
   * @param event what happened
   * @param plant number of the plant, in the order of sowing
   * @param crop its crop
   * @param stage the stage in which it stands now (moved: into which)
   * @param hole its hole now, counted through all stages (moved: into which)
   */
  onEvent(t: number, event: PlantEvent, plant: number, crop: number, stage: number, hole: number): void;
  /**
   * A visit is over.
   * @param free free holes of each stage; the same object at every call
   */
  onVisitEnd?(t: number, free: Int32Array): void;
}

export interface LineOptions {
  /**
   * Draws to be taken instead of those of the plan's distributions.
   * @param crop place of the crop in the plan
   * @param stage place of the stage in the plan; the number of stages for the growth between two picks
   */
  readonly drawsOf?: (crop: number, stage: number) => Draws;
}

/** Draws from the distributions of a plan. */
export function planDraws(plan: Plan): (crop: number, stage: number) => Draws {
  return (c, s) => {
    const crop = plan.crops[c]!;
    if (s === plan.stages.length) return new RandomDraws(crop.regrow!, 1, [crop.name, 'regrowth']);
    const germination = s === 0 ? crop.germination : 1;
    return new RandomDraws(crop.stages[s]!, germination, [crop.name, 'stage', plan.stages[s]!.name]);
  };
}

/** A line that can run any number of seasons of one plan. */
export class Line {
  readonly plan: Plan;

  readonly #days: number;
  readonly #stageCount: number;
  readonly #cropCount: number;
  readonly #always: boolean;
  readonly #queue: EventQueue;
  readonly #levels: Levels;
  readonly #season: Season;
  readonly #counts: Float64Array;
  readonly #weekPicks: Float64Array;
  #observer: EventObserver | null = null;

  /* By stage. */
  readonly #cleanDays: Float64Array;
  /** First hole of each stage; one more entry at the end. */
  readonly #firstHole: Int32Array;
  /** Free holes of stage s: a stack in `#freeHoles` from the stage's first hole on. */
  readonly #free: Int32Array;
  readonly #growing: Int32Array;
  readonly #ready: Int32Array;
  /** Of the ready ones, those that no visit has seen; not kept up while a visit is at work, which sees them all. */
  readonly #unseen: Int32Array;
  readonly #dead: Int32Array;
  readonly #cleaning: Int32Array;
  /** Chains of holes to be cleared, and of holes whose cleaning is over. */
  readonly #deadHead: Int32Array;
  readonly #cleanedHead: Int32Array;
  /** 1 once a plant was ready to come into the stage. */
  readonly #reached: Uint8Array;
  /** 1 if the stage's levels may have changed since they were booked. */
  readonly #touched: Uint8Array;

  /* By stage and crop: s x cropCount + c. */
  readonly #keeps: Float64Array;
  /** Ready plants, longest ready first: a chain both ways. */
  readonly #readyHead: Int32Array;
  readonly #readyTail: Int32Array;
  readonly #keepsPending: Uint8Array;
  /** 1 if the end of keeping has come for the first of the group (only with `always`). */
  readonly #keepsOver: Uint8Array;
  /** Plants that stand, known dead ones not counted. */
  readonly #standing: Int32Array;
  readonly #draws: Draws[];

  /* By hole. */
  readonly #freeHoles: Int32Array;
  readonly #stageOf: Uint8Array;
  readonly #fate: Uint8Array;
  readonly #cropOf: Uint8Array;
  readonly #plantOf: Int32Array;
  readonly #cutsLeft: Uint8Array;
  readonly #readyAt: Float64Array;
  readonly #after: Int32Array;
  readonly #before: Int32Array;

  /* By crop. */
  readonly #cuts: Uint8Array;
  readonly #regrowDraws: (Draws | null)[];
  readonly #sowDays: Float64Array[];
  readonly #sowSeeds: Float64Array;
  readonly #sowNext: Int32Array;
  /** Seeds that are due and not dealt with. */
  readonly #due: Float64Array;
  readonly #refills: (Refill | null)[];

  /* The calendar. */
  readonly #visitDays: Float64Array;
  readonly #wantDays: Float64Array;
  readonly #idVisit: number;
  readonly #idWant: number;
  readonly #idKeeps: number;
  readonly #idSow: number;
  #visitNext = 0;
  #wantNext = 0;
  /** Heads that may still be picked today; Infinity without `want`. */
  #quota = Infinity;
  #visiting = false;
  #sowingDue = false;
  #refillDue = false;
  #someKeepsOver = false;
  #plants = 0;

  constructor(plan: Plan, { drawsOf = planDraws(plan) }: LineOptions = {}) {
    this.plan = plan;
    const days = seasonDays(plan);
    const stages = plan.stages.length;
    const crops = plan.crops.length;
    this.#days = days;
    this.#stageCount = stages;
    this.#cropCount = crops;
    this.#always = plan.visits.kind === 'always';

    this.#cleanDays = Float64Array.from(plan.stages, (stage) => toGrid(stage.cleanDays));
    this.#firstHole = new Int32Array(stages + 1);
    for (let s = 0; s < stages; s++) this.#firstHole[s + 1] = this.#firstHole[s]! + holesOf(plan.stages[s]!);
    const holes = this.#firstHole[stages]!;
    const perStage = (): Int32Array => new Int32Array(stages);
    this.#free = perStage();
    this.#growing = perStage();
    this.#ready = perStage();
    this.#unseen = perStage();
    this.#dead = perStage();
    this.#cleaning = perStage();
    this.#deadHead = perStage();
    this.#cleanedHead = perStage();
    this.#reached = new Uint8Array(stages);
    this.#touched = new Uint8Array(stages);

    const groups = stages * crops;
    this.#keeps = new Float64Array(groups);
    this.#readyHead = new Int32Array(groups);
    this.#readyTail = new Int32Array(groups);
    this.#keepsPending = new Uint8Array(groups);
    this.#keepsOver = new Uint8Array(groups);
    this.#standing = new Int32Array(groups);
    this.#draws = [];
    for (let s = 0; s < stages; s++) {
      for (let c = 0; c < crops; c++) {
        this.#keeps[s * crops + c] = toGrid(plan.crops[c]!.stages[s]!.keeps);
        this.#draws.push(drawsOf(c, s));
      }
    }

    this.#freeHoles = new Int32Array(holes);
    this.#stageOf = new Uint8Array(holes);
    for (let s = 0; s < stages; s++) this.#stageOf.fill(s, this.#firstHole[s]!, this.#firstHole[s + 1]!);
    this.#fate = new Uint8Array(holes);
    this.#cropOf = new Uint8Array(holes);
    this.#plantOf = new Int32Array(holes);
    this.#cutsLeft = new Uint8Array(holes);
    this.#readyAt = new Float64Array(holes);
    this.#after = new Int32Array(holes);
    this.#before = new Int32Array(holes);

    this.#cuts = Uint8Array.from(plan.crops, (crop) => crop.cuts);
    this.#regrowDraws = plan.crops.map((crop, c) => (crop.regrow === null ? null : drawsOf(c, stages)));
    this.#refills = refills(plan);
    this.#sowDays = plan.crops.map((crop, c) => Float64Array.from(this.#sowingDays(crop.sowing, c), toGrid));
    this.#sowSeeds = Float64Array.from(plan.crops, (crop) =>
      crop.sowing.kind === 'due' ? crop.sowing.seeds : 0,
    );
    this.#sowNext = new Int32Array(crops);
    this.#due = new Float64Array(crops);

    this.#visitDays = plan.visits.kind === 'days' ? Float64Array.from(plan.visits.days) : new Float64Array(0);
    this.#wantDays = Float64Array.from(plan.want?.days ?? []);
    this.#idVisit = holes;
    this.#idWant = holes + 1;
    this.#idKeeps = holes + 2;
    this.#idSow = this.#idKeeps + groups;

    this.#queue = new EventQueue(this.#idSow + crops, days, this.#expectedEvents());
    this.#levels = new Levels(stages * STATE_COUNT, days);
    this.#counts = new Float64Array(COUNTS.length);
    this.#weekPicks = new Float64Array(plan.weeks);
    this.#season = {
      counts: this.#counts,
      ledger: this.#levels.areas,
      weekPicks: this.#weekPicks,
      firstPick: Number.NaN,
    };
  }

  /**
   * Run one season.
   * @param seed of the random streams
   * @param season number of the season: with the same seed and number everything happens again
   * @param observer hears of everything that happens
   * @param initial what stands already, if the season is taken up in the middle; then all that is counted and booked is
   * from there on
   * @returns the same object at every call
   * @throws RangeError if the opening cannot be true of this line, or the plan has `visits: always`
   */
  run(
    seed: number,
    season: number,
    observer: EventObserver | null = null,
    initial: InitialState | null = null,
  ): Season {
    this.#observer = observer;
    this.#start(seed, season, initial);
    const queue = this.#queue;
    for (let id = queue.next(); id >= 0; id = queue.next()) {
      if (this.#always && id < this.#idVisit && this.#passOn(id)) continue;
      this.#visiting = this.#always;
      this.#handleEvent(id);
      while (queue.hasMoreNow()) this.#handleEvent(queue.next());
      if (this.#visiting) {
        this.#visit();
        this.#observer?.onVisitEnd?.(queue.now, this.#free);
      }
      this.#book();
    }
    this.#close();
    this.#observer = null;
    return this.#season;
  }

  /* ---- before and after ---- */

  /** Days on which a sowing falls due, or (with `visits: always`) a refill is looked at. */
  #sowingDays(sowing: Plan['crops'][number]['sowing'], crop: number): readonly number[] {
    if (sowing.kind === 'due') return sowing.days;
    // With visit days a refill is looked at on each visit; with `always` once a day, or nothing would begin.
    if (!this.#always || this.#refills[crop] === null) return [];
    return Array.from({ length: this.#days }, (_, day) => day);
  }

  /** About how many events a season has; only speed depends on it. */
  #expectedEvents(): number {
    let seeds = 0;
    for (const crop of this.plan.crops) {
      seeds += crop.sowing.kind === 'due' ? crop.sowing.seeds * crop.sowing.days.length : Infinity;
    }
    let events = 0;
    for (let s = 0; s < this.#stageCount; s++) {
      const shortest = Math.min(...this.plan.crops.map((crop) => crop.stages[s]!.time.days));
      events += Math.min(seeds, (holesOf(this.plan.stages[s]!) * this.#days) / shortest);
    }
    return Math.min(events, 2 ** 31);
  }

  #start(seed: number, season: number, initial: InitialState | null): void {
    const stages = this.#stageCount;
    this.#queue.reset();
    this.#levels.reset();
    this.#counts.fill(0);
    this.#weekPicks.fill(0);
    this.#season.firstPick = Number.NaN;
    for (let s = 0; s < stages; s++) {
      const first = this.#firstHole[s]!;
      const beyond = this.#firstHole[s + 1]!;
      // Turned round, so that the stack hands out the lowest hole first.
      for (let hole = first; hole < beyond; hole++) this.#freeHoles[hole] = first + beyond - 1 - hole;
      this.#free[s] = beyond - first;
    }
    this.#fate.fill(0);
    this.#growing.fill(0);
    this.#ready.fill(0);
    this.#unseen.fill(0);
    this.#dead.fill(0);
    this.#cleaning.fill(0);
    this.#deadHead.fill(-1);
    this.#cleanedHead.fill(-1);
    this.#reached.fill(0);
    this.#touched.fill(1);
    this.#readyHead.fill(-1);
    this.#readyTail.fill(-1);
    this.#keepsPending.fill(0);
    this.#standing.fill(0);
    this.#due.fill(0);
    this.#sowNext.fill(0);
    for (const draws of this.#draws) draws.start(seed, season);
    for (const draws of this.#regrowDraws) draws?.start(seed, season);
    this.#visitNext = 0;
    this.#wantNext = 0;
    this.#quota = this.plan.want === null ? Infinity : 0;
    this.#sowingDue = false;
    this.#refillDue = false;
    this.#keepsOver.fill(0);
    this.#someKeepsOver = false;
    this.#plants = 0;
    if (initial !== null) this.#setInitialState(initial);
    this.#book();
    if (this.#visitNext < this.#visitDays.length)
      this.#queue.schedule(this.#idVisit, this.#visitDays[this.#visitNext]!);
    if (this.#wantNext < this.#wantDays.length)
      this.#queue.schedule(this.#idWant, this.#wantDays[this.#wantNext]!);
    for (let c = 0; c < this.#cropCount; c++) {
      const next = this.#sowNext[c]!;
      if (next < this.#sowDays[c]!.length) this.#queue.schedule(this.#idSow + c, this.#sowDays[c]![next]!);
    }
  }

  /** Put in place what stands, and pass over what was on the calendar by then. */
  #setInitialState({ day, visitsFrom, plants, cleaning, reached }: InitialState): void {
    if (this.#always) throw new RangeError('a season can be taken up only if its visits are on days');
    if (!(day >= 0 && visitsFrom > day)) {
      throw new RangeError(`the next visit must come after day ${day}, from day 0 on: ${visitsFrom}`);
    }
    this.#queue.now = day;
    const ready: number[] = [];
    for (const { crop, stage, cutsLeft, next, at } of plants) {
      this.#demandFree(stage, 1);
      const hole = this.#occupy(stage, crop, this.#plants++);
      this.#cutsLeft[hole] = cutsLeft;
      if (next === 'ready' ? !(at <= day) : !(at > day)) {
        throw new RangeError(`plant ${this.#plants - 1}: ${next} at ${at}, and the visit was on day ${day}`);
      }
      this.#fate[hole] = next === 'die' ? DIE : next === 'fail' ? FAIL : RIPEN;
      if (next === 'ready') {
        this.#readyAt[hole] = at;
        ready.push(hole);
      } else {
        this.#growing[stage]!++;
        this.#queue.schedule(hole, at);
      }
    }
    ready.sort((a, b) => this.#readyAt[a]! - this.#readyAt[b]!);
    for (const hole of ready) {
      this.#ready[this.#stageOf[hole]!]!++;
      this.#queueReady(hole, this.#stageOf[hole]!);
    }
    for (const { stage, holes, until } of cleaning) {
      this.#demandFree(stage, holes);
      for (let i = 0; i < holes; i++) {
        const hole = this.#freeHoles[this.#firstHole[stage]! + --this.#free[stage]!]!;
        this.#cleaning[stage]!++;
        this.#fate[hole] = CLEANED;
        this.#queue.schedule(hole, until);
      }
    }
    this.#reached.set(reached.map(Number));
    const { length } = this.#visitDays;
    while (this.#visitNext < length && this.#visitDays[this.#visitNext]! < visitsFrom) this.#visitNext++;
    this.#wantNext = countUpTo(this.#wantDays, day);
    for (let c = 0; c < this.#cropCount; c++) this.#sowNext[c] = countUpTo(this.#sowDays[c]!, day);
  }

  #demandFree(stage: number, holes: number): void {
    if (this.#free[stage]! >= holes) return;
    throw new RangeError(`more stands or is cleaned in ${this.plan.stages[stage]!.name} than it has holes`);
  }

  #close(): void {
    let standing = 0;
    for (let s = 0; s < this.#stageCount; s++) standing += this.#growing[s]! + this.#ready[s]!;
    this.#counts[STANDING] = standing;
  }

  /* ---- events ---- */

  // What happens reads the time from the queue: a fraction handed over may cost a number object at each call.

  #handleEvent(id: number): void {
    if (id < this.#idVisit) this.#handleHoleEvent(id);
    else this.#handleCalendarEvent(id);
  }

  #handleHoleEvent(hole: number): void {
    const t = this.#queue.now;
    const s = this.#stageOf[hole]!;
    const fate = this.#fate[hole]!;
    if (fate === RIPEN) {
      this.#growing[s]!--;
      this.#ready[s]!++;
      this.#unseen[s]!++;
      this.#readyAt[hole] = t;
      this.#queueReady(hole, s);
      if (!this.#always) {
        // Most events are of this kind, and nothing else changes before the next visit.
        this.#levels.set(s * STATE_COUNT + GROWING, this.#growing[s]!, t);
        this.#levels.set(s * STATE_COUNT + UNATTENDED, this.#unseen[s]!, t);
      } else this.#touched[s] = 1;
      if (s + 1 < this.#stageCount) {
        this.#reached[s + 1] = 1;
        if (this.#always) this.#touched[s + 1] = 1;
        else this.#bookEmpty(s + 1);
      }
      this.#observer?.onEvent(t, 'ripen', this.#plantOf[hole]!, this.#cropOf[hole]!, s, hole);
    } else if (fate === CLEANED) {
      this.#after[hole] = this.#cleanedHead[s]!;
      this.#cleanedHead[s] = hole;
    } else {
      this.#touched[s] = 1;
      this.#growing[s]!--;
      this.#dead[s]!++;
      this.#counts[fate === DIE ? LOST : FAILED]!++;
      this.#standing[s * this.#cropCount + this.#cropOf[hole]!]!--;
      this.#after[hole] = this.#deadHead[s]!;
      this.#deadHead[s] = hole;
      this.#observer?.onEvent(
        t,
        fate === DIE ? 'die' : 'fail',
        this.#plantOf[hole]!,
        this.#cropOf[hole]!,
        s,
        hole,
      );
    }
  }

  #handleCalendarEvent(id: number): void {
    if (id === this.#idVisit) {
      this.#visiting = true;
      this.#refillDue = true;
      if (++this.#visitNext < this.#visitDays.length)
        this.#queue.schedule(id, this.#visitDays[this.#visitNext]!);
    } else if (id === this.#idWant) this.#handleWant(id);
    else if (id < this.#idSow) {
      this.#keepsPending[id - this.#idKeeps] = 0;
      this.#keepsOver[id - this.#idKeeps] = 1;
      this.#someKeepsOver = true;
    } else {
      const c = id - this.#idSow;
      if (this.#refills[c] === null) {
        this.#due[c]! += this.#sowSeeds[c]!;
        this.#sowingDue = true;
      } else this.#refillDue = true;
      const next = ++this.#sowNext[c]!;
      if (next < this.#sowDays[c]!.length) this.#queue.schedule(id, this.#sowDays[c]![next]!);
    }
  }

  /** A day on which heads are wanted begins, or the day after it. */
  #handleWant(id: number): void {
    const t = this.#queue.now;
    const days = this.#wantDays;
    if (this.#wantNext < days.length && days[this.#wantNext] === t) {
      const heads = this.plan.want!.heads;
      this.#quota = heads;
      this.#counts[WANTED]! += heads;
      // Short until picked.
      this.#counts[SHORT]! += heads;
      this.#wantNext++;
      this.#queue.schedule(id, t + 1);
    } else {
      this.#quota = 0;
      if (this.#wantNext < days.length) this.#queue.schedule(id, days[this.#wantNext]!);
    }
  }

  /**
   * With `always`, the usual case cut short: one plant ripens, nobody waits, and it goes straight on or is picked.
   * What it does is what the visit would do; the tests hold both against an independent version of the rules.
   * @returns false if it is another case; then nothing has been done
   */
  #passOn(hole: number): boolean {
    const t = this.#queue.now;
    const s = this.#stageOf[hole]!;
    if (this.#fate[hole] !== RIPEN || this.#ready[s]! > 0 || this.#queue.hasMoreNow()) return false;
    // The hole that it leaves may be what somebody upstream waits for.
    if (s > 0 && this.#ready[s - 1]! > 0) return false;
    const last = this.#stageCount - 1;
    if (s < last) {
      if (this.#free[s + 1] === 0 || this.#reached[s + 1] === 0) return false;
    } else if (this.#quota !== Infinity || this.#cutsLeft[hole] !== 1) return false;

    const c = this.#cropOf[hole]!;
    const plant = this.#plantOf[hole]!;
    this.#observer?.onEvent(t, 'ripen', plant, c, s, hole);
    this.#growing[s]!--;
    this.#standing[s * this.#cropCount + c]!--;
    if (s < last) {
      this.#vacate(hole, s);
      this.#enter(s + 1, c, plant);
      this.#bookPassing(s + 1);
    } else {
      this.#countPick(hole, c, s);
      this.#counts[PICKED_OUT]!++;
      this.#vacate(hole, s);
    }
    this.#bookPassing(s);
    return true;
  }

  /* ---- a visit, in the order of the rules ---- */

  #visit(): void {
    this.#clear();
    this.#pick();
    for (let s = this.#stageCount - 2; s >= 0; s--) {
      while (this.#ready[s]! > 0 && this.#free[s + 1]! > 0) this.#moveOn(this.#longestReady(s), s);
    }
    if (this.#sowingDue) this.#sowDue();
    if (this.#refillDue) this.#sowRefills();
    for (let s = 0; s < this.#stageCount; s++) {
      if (this.#unseen[s]! > 0) {
        this.#unseen[s] = 0;
        this.#touched[s] = 1;
        if (s + 1 < this.#stageCount) this.#touched[s + 1] = 1;
      }
    }
    if (this.#always) this.#watchKeeps();
  }

  /** Take cleaned holes back into use; clear dead plants, failed seeds and plants that have stood ready too long. */
  #clear(): void {
    const t = this.#queue.now;
    for (let s = 0; s < this.#stageCount; s++) {
      for (let hole = this.#cleanedHead[s]!; hole >= 0; hole = this.#after[hole]!) {
        this.#cleaning[s]!--;
        this.#freeHoles[this.#firstHole[s]! + this.#free[s]!++] = hole;
        this.#touched[s] = 1;
      }
      this.#cleanedHead[s] = -1;
      let hole = this.#deadHead[s]!;
      this.#deadHead[s] = -1;
      while (hole >= 0) {
        const next = this.#after[hole]!;
        this.#dead[s]!--;
        this.#observer?.onEvent(t, 'clear', this.#plantOf[hole]!, this.#cropOf[hole]!, s, hole);
        this.#vacate(hole, s);
        hole = next;
      }
    }
    if (!this.#always || this.#someKeepsOver) this.#discard();
    this.#someKeepsOver = false;
  }

  /** A visit discards what has been ready for more than `keeps`; with `always`, at the instant that is over. */
  #discard(): void {
    const t = this.#queue.now;
    for (let s = 0; s < this.#stageCount; s++) {
      for (let c = 0; c < this.#cropCount; c++) {
        const group = s * this.#cropCount + c;
        if (this.#always && this.#keepsOver[group] === 0) continue;
        this.#keepsOver[group] = 0;
        const keeps = this.#keeps[group]!;
        for (;;) {
          const hole = this.#readyHead[group]!;
          if (hole < 0) break;
          const over = this.#readyAt[hole]! + keeps;
          if (this.#always ? over > t : over >= t) break;
          this.#unqueueReady(hole, s);
          this.#standing[group]!--;
          this.#counts[DISCARDED]!++;
          this.#observer?.onEvent(t, 'discard', this.#plantOf[hole]!, c, s, hole);
          this.#vacate(hole, s);
        }
      }
    }
  }

  #pick(): void {
    const s = this.#stageCount - 1;
    const limited = this.#quota !== Infinity;
    while (this.#ready[s]! > 0 && this.#quota > 0) {
      const hole = this.#longestReady(s);
      const c = this.#cropOf[hole]!;
      this.#unqueueReady(hole, s);
      this.#countPick(hole, c, s);
      if (limited) {
        this.#quota--;
        this.#counts[SHORT]!--;
      }
      if (--this.#cutsLeft[hole]! > 0) this.#grow(hole, s, this.#regrowDraws[c]!);
      else {
        this.#counts[PICKED_OUT]!++;
        this.#standing[s * this.#cropCount + c]!--;
        this.#vacate(hole, s);
      }
    }
  }

  #countPick(hole: number, c: number, s: number): void {
    const t = this.#queue.now;
    this.#counts[PICKED]!++;
    this.#weekPicks[Math.floor(t / 7)]!++;
    if (Number.isNaN(this.#season.firstPick)) this.#season.firstPick = t;
    this.#observer?.onEvent(t, 'pick', this.#plantOf[hole]!, c, s, hole);
  }

  #moveOn(hole: number, s: number): void {
    const c = this.#cropOf[hole]!;
    this.#unqueueReady(hole, s);
    this.#standing[s * this.#cropCount + c]!--;
    const plant = this.#plantOf[hole]!;
    this.#vacate(hole, s);
    this.#enter(s + 1, c, plant);
  }

  /** A plant comes into stage `s` from the one before. */
  #enter(s: number, c: number, plant: number): void {
    const t = this.#queue.now;
    const hole = this.#occupy(s, c, plant);
    this.#observer?.onEvent(t, 'move', plant, c, s, hole);
    this.#grow(hole, s, this.#draws[s * this.#cropCount + c]!);
  }

  #sowDue(): void {
    for (let c = 0; c < this.#cropCount; c++) {
      const due = this.#due[c]!;
      if (due === 0) continue;
      const sown = Math.min(due, this.#free[0]!);
      this.#due[c] = 0;
      this.#counts[UNSOWN]! += due - sown;
      this.#sow(c, sown);
    }
    this.#sowingDue = false;
  }

  #sowRefills(): void {
    const t = this.#queue.now;
    for (let c = 0; c < this.#cropCount; c++) {
      const refill = this.#refills[c];
      if (refill === null || refill === undefined) continue;
      const standing = (s: number): number => this.#standing[s * this.#cropCount + c]!;
      this.#sow(c, Math.min(seedsToRefill(refill, t, this.#gapAfter(), standing), this.#free[0]!));
    }
    this.#refillDue = false;
  }

  /** Days from this visit to the next one; to the end of the season after the last. */
  #gapAfter(): number {
    const t = this.#queue.now;
    if (this.#always) return 1;
    return (this.#visitNext < this.#visitDays.length ? this.#visitDays[this.#visitNext]! : this.#days) - t;
  }

  #sow(c: number, seeds: number): void {
    const t = this.#queue.now;
    if (seeds === 0) return;
    this.#reached[0] = 1;
    this.#counts[SOWN]! += seeds;
    const draws = this.#draws[c]!;
    for (let i = 0; i < seeds; i++) {
      const plant = this.#plants++;
      const hole = this.#occupy(0, c, plant);
      this.#observer?.onEvent(t, 'sow', plant, c, 0, hole);
      this.#grow(hole, 0, draws);
    }
  }

  /** With `always`, make sure that the end of keeping is noticed: one event for each crop in each stage. */
  #watchKeeps(): void {
    for (let s = 0; s < this.#stageCount; s++) {
      if (this.#ready[s] === 0) continue;
      for (let c = 0; c < this.#cropCount; c++) {
        const group = s * this.#cropCount + c;
        const hole = this.#readyHead[group]!;
        if (hole < 0 || this.#keepsPending[group] === 1 || this.#keeps[group] === Infinity) continue;
        this.#keepsPending[group] = 1;
        this.#queue.schedule(this.#idKeeps + group, this.#readyAt[hole]! + this.#keeps[group]!);
      }
    }
  }

  /* ---- plants in holes ---- */

  /** Put a plant into a free hole of stage `s`. */
  #occupy(s: number, c: number, plant: number): number {
    const hole = this.#freeHoles[this.#firstHole[s]! + --this.#free[s]!]!;
    this.#cropOf[hole] = c;
    this.#plantOf[hole] = plant;
    this.#cutsLeft[hole] = this.#cuts[c]!;
    this.#standing[s * this.#cropCount + c]!++;
    return hole;
  }

  /** Let the plant in `hole` begin to grow, with the next draws of `luck`. */
  #grow(hole: number, s: number, draws: Draws): void {
    const t = this.#queue.now;
    const k = draws.take();
    const days = draws.times[k]!;
    this.#growing[s]!++;
    this.#touched[s] = 1;
    if (draws.sprouts[k] === 0) {
      this.#fate[hole] = FAIL;
      this.#queue.schedule(hole, t + days);
      return;
    }
    const moment = draws.moments[k]!;
    if (moment < 1) {
      this.#fate[hole] = DIE;
      this.#queue.schedule(hole, t + toGrid(moment * days));
      return;
    }
    this.#fate[hole] = RIPEN;
    this.#queue.schedule(hole, t + days);
  }

  /** The plant is gone from `hole`: it is cleaned, or free at once. */
  #vacate(hole: number, s: number): void {
    const t = this.#queue.now;
    this.#touched[s] = 1;
    const cleanDays = this.#cleanDays[s]!;
    if (cleanDays > 0) {
      this.#cleaning[s]!++;
      this.#fate[hole] = CLEANED;
      this.#queue.schedule(hole, t + cleanDays);
    } else {
      this.#freeHoles[this.#firstHole[s]! + this.#free[s]!++] = hole;
    }
  }

  /* ---- ready plants ---- */

  /** Put `hole` behind those that were ready before, or at the same instant with a lower plant number. */
  #queueReady(hole: number, s: number): void {
    const t = this.#readyAt[hole]!;
    const group = s * this.#cropCount + this.#cropOf[hole]!;
    const plant = this.#plantOf[hole]!;
    let before = this.#readyTail[group]!;
    while (before >= 0 && this.#readyAt[before] === t && this.#plantOf[before]! > plant) {
      before = this.#before[before]!;
    }
    const after = before >= 0 ? this.#after[before]! : this.#readyHead[group]!;
    this.#before[hole] = before;
    this.#after[hole] = after;
    if (before >= 0) this.#after[before] = hole;
    else this.#readyHead[group] = hole;
    if (after >= 0) this.#before[after] = hole;
    else this.#readyTail[group] = hole;
  }

  /** Take the first plant of its crop's chain out of it. */
  #unqueueReady(hole: number, s: number): void {
    const group = s * this.#cropCount + this.#cropOf[hole]!;
    const after = this.#after[hole]!;
    this.#readyHead[group] = after;
    if (after >= 0) this.#before[after] = -1;
    else this.#readyTail[group] = -1;
    this.#ready[s]!--;
    this.#touched[s] = 1;
  }

  /** The hole of stage `s` whose plant has been ready longest (ties: lower plant number); -1 if none. */
  #longestReady(s: number): number {
    const crops = this.#cropCount;
    let best = this.#readyHead[s * crops]!;
    for (let c = 1; c < crops; c++) {
      const hole = this.#readyHead[s * crops + c]!;
      if (hole < 0) continue;
      if (best < 0 || this.#readyAt[hole]! < this.#readyAt[best]!) best = hole;
      else if (this.#readyAt[hole] === this.#readyAt[best] && this.#plantOf[hole]! < this.#plantOf[best]!)
        best = hole;
    }
    return best;
  }

  /* ---- the ledger ---- */

  /** Book the levels of every stage that was touched, as they stand from now on. */
  #book(): void {
    for (let s = 0; s < this.#stageCount; s++) {
      if (this.#touched[s] === 0) continue;
      this.#touched[s] = 0;
      this.#bookStage(s);
    }
  }

  #bookStage(s: number): void {
    const t = this.#queue.now;
    const levels = this.#levels;
    const at = s * STATE_COUNT;
    const unseen = this.#unseen[s]!;
    levels.set(at + GROWING, this.#growing[s]!, t);
    levels.set(at + DEAD, this.#dead[s]!, t);
    levels.set(at + UNATTENDED, unseen, t);
    levels.set(at + (s === this.#stageCount - 1 ? HELD : BLOCKED), this.#ready[s]! - unseen, t);
    levels.set(at + CLEANING, this.#cleaning[s]!, t);
    this.#bookEmpty(s);
  }

  #bookEmpty(s: number): void {
    const t = this.#queue.now;
    const levels = this.#levels;
    const at = s * STATE_COUNT;
    const free = this.#free[s]!;
    if (this.#reached[s] === 0) {
      levels.set(at + FILLING, free, t);
      return;
    }
    const untended = s > 0 ? Math.min(free, this.#unseen[s - 1]!) : 0;
    levels.set(at + FILLING, 0, t);
    levels.set(at + UNTENDED, untended, t);
    levels.set(at + UNSUPPLIED, free - untended, t);
  }

  /** Book what one plant changes in passing: the levels of growing, cleaning and supplied empty holes. */
  #bookPassing(s: number): void {
    const t = this.#queue.now;
    const levels = this.#levels;
    const at = s * STATE_COUNT;
    levels.set(at + GROWING, this.#growing[s]!, t);
    levels.set(at + CLEANING, this.#cleaning[s]!, t);
    levels.set(at + UNSUPPLIED, this.#free[s]!, t);
    this.#touched[s] = 0;
  }
}

/** How many of some days, ascending, lie at `t` or before. */
function countUpTo(days: Float64Array, t: number): number {
  let count = 0;
  while (count < days.length && days[count]! <= t) count++;
  return count;
}
