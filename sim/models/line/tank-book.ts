/**
 * What the tank goes through from visit to visit.
 *
 * To know what plants have used by a visit, all holes are gone through (stay-totals.ts). Doing so at each visit takes as long as the season
 * itself where there is one a day, so it is done in one season of TANK_EVERY. In the others it is done at the last visit only, on which
 * the litres topped up depend. Nothing is allocated but, in a season that is looked at closely, the tank.
 */

import type { EventQueue } from '../../engine/event-queue.js';
import { looksInTank } from '../physical/line-matter.js';
import type { TankPlan } from '../physical/plan.js';
import { TankSeason } from '../physical/tank.js';
import { seasonDays, visitDays } from '../plan.js';
import { changeVisits, inUnits, TANK_COLUMNS, TANK_EVERY } from '../takes.js';
import type { Holes } from './holes.js';
import type { Stage } from './stage.js';
import type { StayPlan } from './stay-kinds.js';
import type { StayTotals } from './stay-totals.js';

export class TankBook {
  /** Used by the last visit that was looked at [L]. */
  usedL = 0;
  readonly #by: StayPlan;
  readonly #totals: StayTotals;
  readonly #tank: TankPlan;
  /** Visits of the season [d], and at which of them the tank is filled anew. */
  readonly #days: readonly number[];
  readonly #changes: Uint8Array;
  readonly #figures = new Float64Array(TANK_COLUMNS.count);
  /** How many visits there were. */
  #visits = 0;
  /** Used between the visits at which the tank is filled anew and those before them [L]. */
  #beforeChanges = 0;
  /** The tank of a season that is looked at closely. */
  #season: TankSeason | null = null;

  /** @returns null where there is nothing to be looked at */
  static of(by: StayPlan, totals: StayTotals): TankBook | null {
    const { tank } = by.matter.physical;
    const { visits } = by.plan;
    return tank === null || visits.kind === 'always' || !looksInTank(by.plan)
      ? null
      : new TankBook(by, totals, tank);
  }

  private constructor(by: StayPlan, totals: StayTotals, tank: TankPlan) {
    this.#by = by;
    this.#totals = totals;
    this.#tank = tank;
    this.#days = visitDays(by.plan);
    this.#changes = changeVisits(tank, this.#days);
  }

  /** @param season its number; null: it is taken up in the middle, and nothing is told of its tank */
  reset(season: number | null): void {
    this.usedL = 0;
    this.#visits = season === null ? Infinity : 0;
    this.#beforeChanges = 0;
    this.#season = season !== null && season % TANK_EVERY === 0 ? new TankSeason(this.#tank) : null;
  }

  /** A visit comes, of which nothing is done yet. */
  visit(stages: readonly Stage[], holes: Holes, queue: EventQueue): void {
    const i = this.#visits++;
    const season = this.#season;
    if (season === null && this.#visits !== this.#days.length) return;
    this.#totals.take(stages, holes, queue, queue.now, true);
    const used = this.#totals.usedL - this.usedL;
    this.usedL += used;
    if (season === null) return;
    season.visit(queue.now, used);
    if (this.#changes[i] === 1) this.#beforeChanges += used;
  }

  /**
   * The season is over.
   * @param usedL all that was used
   * @returns what happened from visit to visit, where it was looked at
   */
  end(usedL: number): Float64Array | null {
    const season = this.#season;
    if (season === null) return null;
    season.end(usedL - this.usedL);
    const { mostBetweenVisits, beforeChanges, ecGoodDays } = TANK_COLUMNS;
    const { plan, columns } = this.#by;
    const unit = columns.tankUnits[mostBetweenVisits]!;
    this.#figures[mostBetweenVisits] = inUnits(Math.max(0, season.mostBetweenVisitsL), unit);
    this.#figures[beforeChanges] = inUnits(Math.max(0, this.#beforeChanges), unit);
    this.#figures[ecGoodDays] = season.ecGoodDays(seasonDays(plan)) ?? 0;
    return this.#figures;
  }
}
