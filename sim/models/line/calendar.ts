/** The calendar: visits, wanted heads, sowings, and what they leave to be done at the next visit. */

import { TICK, toGrid } from '../../engine/clock.js';
import type { EventQueue } from '../../engine/event-queue.js';
import { SHORT, WANTED } from '../ledger.js';
import { type CropPlan, type Plan, seasonDays } from '../plan.js';
import type { CropInStage } from './stage.js';

export class Calendar {
  /* Events: those of the holes come first, each under the number of its hole; then these. */
  readonly visitId: number;
  readonly wantId: number;
  /** The end of keeping, for each crop in each stage (only with `always`). */
  readonly keepsId: number;
  /** Sowings, for each crop. */
  readonly sowId: number;
  /** How many events there are, with those of the holes. */
  readonly ids: number;

  /** Is somebody there at this instant? */
  visiting = false;
  /** Heads that may still be picked today; Infinity without `want`. */
  quota = Infinity;
  /** Seeds that are due and not dealt with, by crop. */
  readonly due: Float64Array;
  /** Of crops whose missed sowings are dropped: seeds that are not sown any more since a later sowing fell due. */
  readonly dropped: Float64Array;
  sowingDue = false;
  refillDue = false;

  readonly #plan: Plan;
  readonly #crops: readonly CropInStage[];
  readonly #visits: Days;
  readonly #wants: Days;
  readonly #sowings: readonly Days[];
  /** When the latest sowing fell due, by crop [d]. */
  readonly #lastDue: Float64Array;

  /** @param crops of each stage, in turn */
  constructor(plan: Plan, holes: number, crops: readonly CropInStage[]) {
    this.#plan = plan;
    this.#crops = crops;
    this.#visits = new Days(plan.visits.kind === 'days' ? plan.visits.days : []);
    this.#wants = new Days(plan.want?.days ?? []);
    this.#sowings = plan.crops.map((crop) => new Days(sowingDays(plan, crop)));
    this.due = new Float64Array(plan.crops.length);
    this.dropped = new Float64Array(plan.crops.length);
    this.#lastDue = new Float64Array(plan.crops.length);
    this.visitId = holes;
    this.wantId = holes + 1;
    this.keepsId = holes + 2;
    this.sowId = this.keepsId + crops.length;
    this.ids = this.sowId + plan.crops.length;
  }

  /** Back to day 0, with nothing to be done. */
  reset(): void {
    for (const days of [this.#visits, this.#wants, ...this.#sowings]) days.next = 0;
    this.quota = this.#plan.want === null ? Infinity : 0;
    this.due.fill(0);
    this.dropped.fill(0);
    this.#lastDue.fill(-1);
    this.sowingDue = false;
    this.refillDue = false;
  }

  /**
   * Pass over what was on the calendar by `day`.
   * @param visitsFrom no visit before this day, whatever the plan says [d from the start]
   */
  passOver(day: number, visitsFrom: number): void {
    this.#visits.passOver(visitsFrom);
    for (const days of [this.#wants, ...this.#sowings]) days.passOver(day + TICK);
  }

  /** Let the first visit, wanted day and sowings come. */
  begin(queue: EventQueue): void {
    queue.schedule(this.visitId, this.#visits.day);
    queue.schedule(this.wantId, this.#wants.day);
    for (const [c, days] of this.#sowings.entries()) queue.schedule(this.sowId + c, days.day);
  }

  /** An event of the calendar comes; `counts` are those of the season. */
  handleEvent(id: number, queue: EventQueue, counts: Float64Array): void {
    if (id === this.visitId) {
      this.visiting = true;
      this.refillDue = true;
      queue.schedule(id, this.#visits.pass());
    } else if (id === this.wantId) this.#want(queue, counts);
    else if (id < this.sowId) {
      const crop = this.#crops[id - this.keepsId]!;
      crop.keepsPending = false;
      crop.keepsOver = true;
    } else {
      const c = id - this.sowId;
      const { sowing } = this.#plan.crops[c]!;
      if (sowing.kind === 'refill') this.refillDue = true;
      else {
        if (sowing.missed === 'dropped') this.#drop(c, queue.now);
        this.due[c]! += sowing.seeds + (sowing.more?.[this.#sowings[c]!.next] ?? 0);
        this.sowingDue = true;
      }
      queue.schedule(id, this.#sowings[c]!.pass());
    }
  }

  /** Days from this visit to the next one; to the end of the season after the last. */
  gapAfter({ now }: EventQueue): number {
    if (this.#plan.visits.kind === 'always') return 1;
    const { day } = this.#visits;
    return (day === Infinity ? seasonDays(this.#plan) : day) - now;
  }

  /** Of a crop another sowing falls due; what falls due at the same instant is one sowing. */
  #drop(c: number, now: number): void {
    if (this.#lastDue[c] !== now) {
      this.dropped[c]! += this.due[c]!;
      this.due[c] = 0;
    }
    this.#lastDue[c] = now;
  }

  /** A day on which heads are wanted begins, or the day after it. */
  #want(queue: EventQueue, counts: Float64Array): void {
    if (this.#wants.day === queue.now) {
      const { heads } = this.#plan.want!;
      this.quota = heads;
      counts[WANTED]! += heads;
      // Short until picked.
      counts[SHORT]! += heads;
      this.#wants.next++;
      queue.schedule(this.wantId, queue.now + 1);
    } else {
      this.quota = 0;
      queue.schedule(this.wantId, this.#wants.day);
    }
  }
}

/** Days on which something comes, one after the other. */
class Days {
  /** How many have come. */
  next = 0;
  readonly #days: Float64Array;

  /** @param days ascending [d from the start] */
  constructor(days: readonly number[]) {
    this.#days = Float64Array.from(days, toGrid);
  }

  /** The next one; Infinity if none is left. */
  get day(): number {
    return this.#days[this.next] ?? Infinity;
  }

  /** The next one has come. @returns the one after it */
  pass(): number {
    this.next++;
    return this.day;
  }

  /** Let all that come before a day have come. */
  passOver(beyond: number): void {
    while (this.day < beyond) this.next++;
  }
}

/** Days on which a sowing falls due, or (with `visits: always`) a refill is looked at. */
function sowingDays(plan: Plan, { sowing }: CropPlan): readonly number[] {
  if (sowing.kind === 'due') return sowing.days;
  // With visit days a refill is looked at on each visit; with `always` once a day, or nothing would begin.
  return plan.visits.kind === 'always' ? Array.from({ length: seasonDays(plan) }, (_, day) => day) : [];
}
