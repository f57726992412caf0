/** All that is true of a line at one instant, for what happens in it and the rules of a visit to read and change. */

import type { Columns } from '../../engine/columns.js';
import { EventQueue } from '../../engine/event-queue.js';
import type { Draws } from '../growth.js';
import { holesOf, type Plan, seasonDays, seedsDueOf } from '../plan.js';
import { type Refill, refills } from '../refill.js';
import * as route from '../route.js';
import { Books } from './books.js';
import { Calendar } from './calendar.js';
import { Holes } from './holes.js';
import type { EventObserver } from './observer.js';
import { CropInStage, type Stage, stagesOf } from './stage.js';
import { Stays } from './stays.js';

/** A line and where it stands in its season. */
export class LineState {
  readonly plan: Plan;
  readonly always: boolean;
  readonly stages: readonly Stage[];
  /** Where seeds are sown, and where heads are picked. */
  readonly first: Stage;
  readonly last: Stage;
  /** Of each stage, in turn. */
  readonly crops: readonly CropInStage[];
  readonly holes: Holes;
  readonly calendar: Calendar;
  readonly books: Books;
  readonly queue: EventQueue;

  /* By crop. */
  readonly cuts: Uint8Array;
  readonly regrowDraws: readonly (Draws | null)[];
  readonly refills: readonly (Refill | null)[];

  /** Who books what the season takes beyond its holes; null where nobody asked for it. */
  stays: Stays | null = null;
  observer: EventObserver | null = null;
  /** Plants that were sown so far: the number of the next one. */
  plants = 0;
  readonly #stays: Stays | null;

  constructor(plan: Plan, drawsOf: (crop: number, stage: number) => Draws, columns: Columns) {
    this.plan = plan;
    this.always = plan.visits.kind === 'always';
    const stages = stagesOf(plan);
    for (const stage of stages) {
      stage.crops = plan.crops.map((crop, c) => {
        const next = stages[route.next(crop, stage.place)] ?? null;
        return new CropInStage(plan, c, stage, next, drawsOf(c, stage.place));
      });
    }
    this.stages = stages;
    this.first = stages[route.first(plan)]!;
    this.last = stages[route.last(plan)]!;
    this.crops = stages.flatMap((stage) => stage.crops);
    this.holes = new Holes(stages, columns);
    this.calendar = new Calendar(plan, this.last.beyond, this.crops);
    this.books = new Books(plan);
    this.queue = new EventQueue(this.calendar.ids, seasonDays(plan), expectedEvents(plan), columns);
    this.cuts = Uint8Array.from(plan.crops, (crop) => crop.cuts);
    this.regrowDraws = plan.crops.map(({ regrow }, c) => regrow && drawsOf(c, stages.length));
    this.refills = refills(plan);
    this.#stays = Stays.of(plan, this.last.beyond);
  }

  /**
   * An empty line on day 0 of a season, with the season's luck.
   * @param whole false: it is then taken up in the middle
   * @param hears somebody hears what such a season takes
   */
  reset(seed: number, season: number, whole: boolean, hears: boolean): void {
    this.stays = whole || hears ? this.#stays : null;
    this.stays?.reset(season, whole);
    for (const stage of this.stages) stage.reset();
    for (const crop of this.crops) crop.reset(seed, season);
    for (const draws of this.regrowDraws) draws?.start(seed, season);
    this.holes.reset(this.stages);
    this.calendar.reset();
    this.books.reset();
    this.queue.reset();
    this.plants = 0;
  }
}

/** About how many events a season has; only speed depends on it. */
function expectedEvents(plan: Plan): number {
  let seeds = 0;
  for (const crop of plan.crops) seeds += crop.sowing.kind === 'due' ? seedsDueOf(plan, crop) : Infinity;
  let events = 0;
  for (const [s, stage] of plan.stages.entries()) {
    const shortest = Math.min(...plan.crops.map((crop) => crop.stages[s]!.time.days));
    events += Math.min(seeds, (holesOf(stage) * seasonDays(plan)) / shortest);
  }
  return Math.min(events, 2 ** 31);
}
