/**
 * The tank of one season, from visit to visit. It is full at day 0; each visit first tops it up, or, when it has stood long enough,
 * drains it and fills it anew. Plants do not suffer where it runs low: that is reported.
 */

import { EcForecast } from './conductivity.js';
import type { TankPlan } from './plan.js';

export class TankSeason {
  readonly #tank: TankPlan;
  readonly #ec: EcForecast | null;
  #level: number;
  #filledOn = 0;
  /** Litres put in over the season; not the first filling. */
  toppedUpL = 0;
  /** Litres drained to fill anew. */
  drainedL = 0;
  /** Lowest level [L]. */
  lowestL: number;
  /** Most litres used from one visit to the next (or to the end). */
  mostBetweenVisitsL = 0;

  constructor(tank: TankPlan) {
    const { fullL, ec, topUpEc, uptakeEc } = tank;
    this.#tank = tank;
    this.#ec = ec === null || topUpEc === null ? null : new EcForecast(fullL, ec, topUpEc, uptakeEc);
    this.#level = fullL;
    this.lowestL = fullL;
  }

  /** Level now [L]: after the last visit full, at the end of a season what is left. */
  get levelL(): number {
    return this.#level;
  }

  /** A visit. @param day [d] @param usedL litres used since the visit before */
  visit(day: number, usedL: number): void {
    const { fullL, changeDays } = this.#tank;
    this.#use(usedL);
    const change = changeDays !== null && day - this.#filledOn >= changeDays;
    if (change) {
      this.drainedL += this.#level;
      this.toppedUpL += fullL;
      this.#filledOn = day;
    } else this.toppedUpL += fullL - this.#level;
    this.#level = fullL;
    this.#ec?.visit(day, usedL, change);
  }

  /** The season is over. @param usedL litres used since the last visit */
  end(usedL: number): void {
    this.#use(usedL);
  }

  /** Days until the forecast of conductivity ends [d]: the season's where it never does; null without what it needs. */
  ecGoodDays(seasonDays: number): number | null {
    return this.#ec === null ? null : (this.#ec.endedOn ?? seasonDays);
  }

  #use(usedL: number): void {
    this.#level -= usedL;
    this.lowestL = Math.min(this.lowestL, this.#level);
    this.mostBetweenVisitsL = Math.max(this.mostBetweenVisitsL, usedL);
  }
}

/** Days from full to low [d]. @param litresPerDay with every hole growing */
export function daysToLow({ fullL, lowL }: TankPlan, litresPerDay: number): number {
  return (fullL - lowL) / litresPerDay;
}
