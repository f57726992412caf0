/**
 * The line: sowing, growing, moving, picking, clearing.
 *
 * Each hole has at most one pending event (its plant ripens, dies or proves a failed seed; its cleaning ends), so hole
 * numbers are also event numbers; behind them come the events of the calendar. The loop takes all events of one instant, then
 * lets the visit of that instant, if there is one, do its work. Nothing is allocated while a season runs.
 */

import { Columns } from '../../engine/columns.js';
import { type Draws, RandomDraws } from '../growth.js';
import type { InitialState } from '../initial-state.js';
import { type Season, STANDING } from '../ledger.js';
import { type Plan, seasonDays } from '../plan.js';
import * as route from '../route.js';
import { handleEvent, passOn } from './events.js';
import { setInitialState } from './initial-state.js';
import { Moments } from './moments.js';
import type { EventObserver } from './observer.js';
import { LineState } from './state.js';
import { visit } from './visit.js';

export type { EventObserver, PlantEvent } from './observer.js';

export interface LineOptions {
  /**
   * Draws to be taken instead of those of the plan's distributions.
   * @param crop place of the crop in the plan
   * @param stage place of the stage in the plan; the number of stages for the growth between two picks
   */
  readonly drawsOf?: (crop: number, stage: number) => Draws;
  /** Memory of a line that is not run any more. */
  readonly columns?: Columns;
}

/** Draws from the distributions of a plan. */
export function planDraws(plan: Plan): (crop: number, stage: number) => Draws {
  return (c, s) => {
    const crop = plan.crops[c]!;
    if (s === plan.stages.length) return new RandomDraws(crop.regrow!, 1, [crop.name, 'regrowth']);
    const germination = s === route.first(crop) ? crop.germination : 1;
    return new RandomDraws(crop.stages[s]!, germination, [crop.name, 'stage', plan.stages[s]!.name]);
  };
}

/** A line that can run any number of seasons of one plan. */
export class Line {
  readonly plan: Plan;
  readonly #state: LineState;

  constructor(plan: Plan, { drawsOf = planDraws(plan), columns = new Columns() }: LineOptions = {}) {
    this.plan = plan;
    columns.reset();
    this.#state = new LineState(plan, drawsOf, columns);
  }

  /**
   * Run one season.
   * @param seed of the random streams
   * @param season number of the season: with the same seed and number everything happens again
   * @param observer hears of everything that happens
   * @param initial what stands already, if the season is taken up in the middle; then all that is counted and booked is
   * from there on
   * @returns the same object at every call
   * @throws RangeError if `initial` cannot be true of this line, or the plan has `visits: always`
   */
  run(
    seed: number,
    season: number,
    observer: EventObserver | null = null,
    initial: InitialState | null = null,
  ): Season {
    const line = this.#state;
    const { always, queue, stages, books, calendar } = line;
    const free = (): Int32Array => Int32Array.from(stages, (stage) => stage.free);
    const hears = observer?.takesAt !== undefined;
    line.reset(seed, season, initial === null, hears);
    line.observer = observer;
    if (initial !== null) setInitialState(line, initial);
    const moments = hears && line.stays !== null ? new Moments(line, observer) : null;
    books.book(stages, queue);
    calendar.begin(queue);
    for (let id = queue.next(); id >= 0; id = queue.next()) {
      if (moments !== null && queue.now >= moments.next) moments.tellUntil(queue.now);
      if (always && id < calendar.visitId && passOn(line, id)) continue;
      calendar.visiting = always;
      handleEvent(line, id);
      while (queue.hasMoreNow()) handleEvent(line, queue.next());
      if (calendar.visiting) {
        if (line.stays !== null) line.stays.visit(stages, line.holes, queue);
        visit(line);
        observer?.onVisitEnd?.(queue.now, free());
      }
      books.book(stages, queue);
    }
    for (const { growing, ready } of stages) books.counts[STANDING]! += growing + ready;
    moments?.tellUntil(seasonDays(this.plan));
    line.observer = null;
    if (line.stays !== null && initial === null) {
      line.stays.end(stages, line.holes, queue, books.counts);
      books.season.takes = line.stays.takes;
    }
    return books.season;
  }
}
