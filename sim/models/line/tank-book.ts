/**
 * What plants have used until a visit, for the tank: all holes are gone through, with a table instead of the curves (see
 * physical/stay-table.ts).
 *
 * Where there is a visit a day, doing so at each of them takes a third of a season's time. So it is done in one season of TANK_EVERY;
 * in the others only at those visits on which the litres bought depend: the last one, those at which the tank is filled anew,
 * and those before them. Litres that are bought are so told of every season, and only what happens from visit to visit of some.
 * Nothing is allocated but, in such a season, the tank.
 */

import type { EventQueue } from '../../engine/event-queue.js';
import type { TankPlan } from '../physical/plan.js';
import { STAY_SIZE, tableLitres, writeStayTable } from '../physical/stay-table.js';
import { TankSeason } from '../physical/tank.js';
import { seasonDays } from '../plan.js';
import { changeVisits, inUnits, TANK_COLUMNS, TANK_EVERY } from '../takes.js';
import type { Holes } from './holes.js';
import { readyOf, type Stage } from './stage.js';
import type { StayKind, StayPlan } from './stay-kinds.js';
import type { StaySums } from './stay-sums.js';

export class TankBook {
  readonly #by: StayPlan;
  readonly #sums: StaySums;
  readonly #tank: TankPlan;
  readonly #table: Float64Array;
  /** Of whole stays of each kind: litres a day drawn, and litres that stay in the plant. */
  readonly #off: Float64Array;
  readonly #kept: Float64Array;
  readonly #days: readonly number[];
  /** Of each visit: is it asked what was used by then; is the tank filled anew? */
  readonly #asked: Uint8Array;
  readonly #changes: Uint8Array;
  readonly #figures = new Float64Array(TANK_COLUMNS.count);

  /** The visit that comes next. */
  #next = 0;
  /** Used by the last visit that was asked, until the last one, and before those at which the tank was filled anew [L]. */
  #used = 0;
  #beforeChanges = 0;
  /** The tank of a season that is looked at closely. */
  #season: TankSeason | null = null;

  /** @returns null where there is no tank, or not told what plants use, or somebody is there at every instant */
  static of(by: StayPlan, sums: StaySums): TankBook | null {
    const { tank } = by.matter.physical;
    const { visits } = by.plan;
    if (tank === null || !by.matter.drinks || visits.kind === 'always') return null;
    const end = seasonDays(by.plan);
    return new TankBook(
      by,
      sums,
      tank,
      visits.days.filter((day) => day < end),
    );
  }

  private constructor(by: StayPlan, sums: StaySums, tank: TankPlan, days: readonly number[]) {
    this.#by = by;
    this.#sums = sums;
    this.#tank = tank;
    this.#days = days;
    this.#changes = changeVisits(tank, days);
    this.#asked = Uint8Array.from(days, (_, i) =>
      i === days.length - 1 || this.#changes[i] === 1 || this.#changes[i + 1] === 1 ? 1 : 0,
    );
    const { kinds } = by;
    this.#table = new Float64Array(kinds.length * STAY_SIZE);
    this.#off = new Float64Array(kinds.length);
    this.#kept = new Float64Array(kinds.length);
    for (const [k, kind] of kinds.entries()) if (kind !== null) this.#write(k, kind);
  }

  #write(k: number, kind: StayKind): void {
    const { plan, matter } = this.#by;
    const { waterScale, crops } = matter.physical;
    const { day } = (matter.stages[Math.floor(k / plan.crops.length)] ?? matter.stages.at(-1)!).water!;
    const { dry, slaCm2G } = crops[k % plan.crops.length]!;
    const { curve } = kind;
    const scaled = { cover: waterScale * day.cover, leaf: waterScale * day.leaf };
    writeStayTable(this.#table, k * STAY_SIZE, { curve, day: scaled, dry, slaCm2G });
    this.#off[k] = curve.areaM2 * (scaled.cover * kind.cover + scaled.leaf * kind.layers);
    this.#kept[k] = kind.toL - kind.fromL;
  }

  /** @param season its number */
  reset(season: number): void {
    this.#next = 0;
    this.#used = 0;
    this.#beforeChanges = 0;
    this.#season = season % TANK_EVERY === 0 ? new TankSeason(this.#tank) : null;
  }

  /** A visit comes, of which nothing is done yet. */
  visit(stages: readonly Stage[], holes: Holes, queue: EventQueue): void {
    const i = this.#next++;
    if (this.#season === null && this.#asked[i] === 0) return;
    const before = this.#used;
    this.#used = this.#usedBy(stages, holes, queue);
    if (this.#changes[i] === 1) this.#beforeChanges += this.#used - before;
    this.#season?.visit(this.#days[i]!, this.#used - before);
  }

  /**
   * The season is over: tell the row what was used until the last visit, and before new fillings.
   * @param usedL all that was used
   * @returns what happened from visit to visit, where it was looked at
   */
  end(row: Float64Array, usedL: number): Float64Array | null {
    const { columns, plan } = this.#by;
    const { usedByLastVisit, usedBeforeChanges, units, tankUnits } = columns;
    row[usedByLastVisit] = inUnits(this.#used, units[usedByLastVisit]!);
    row[usedBeforeChanges] = inUnits(this.#beforeChanges, units[usedBeforeChanges]!);
    const season = this.#season;
    if (season === null) return null;
    season.end(usedL - this.#used);
    const { mostBetweenVisits, ecGoodDays } = TANK_COLUMNS;
    this.#figures[mostBetweenVisits] = inUnits(season.mostBetweenVisitsL, tankUnits[mostBetweenVisits]!);
    this.#figures[ecGoodDays] = season.ecGoodDays(seasonDays(plan)) ?? 0;
    return this.#figures;
  }

  /** What plants have used by now [L]. */
  #usedBy(stages: readonly Stage[], holes: Holes, { now }: EventQueue): number {
    const sums = this.#sums;
    const { begun, doomed, days, deadCover, deadLayers, deadKeptL, spans } = sums;
    const { matter, kinds, plan } = this.#by;
    const { waterScale } = matter.physical;
    let used = 0;
    for (let k = 0; k < kinds.length; k++) {
      used += days[k]! * this.#off[k]! + (begun[k]! - doomed[k]!) * this.#kept[k]!;
    }
    for (let s = 0; s < stages.length; s++) {
      const stage = stages[s]!;
      const { water, areaM2 } = matter.stages[stage.place]!;
      const { cover, leaf } = water!.day;
      used += waterScale * areaM2! * (cover * deadCover[s]! + leaf * deadLayers[s]!) + deadKeptL[s]!;
      for (let c = 0; c < stage.crops.length; c++) {
        const k = stage.place * plan.crops.length + c;
        const kind = kinds[k];
        if (kind != null) used += sums.waitedBy(k, readyOf(stage.crops[c]!, holes), now) * kind.readyL;
      }
      for (let hole = stage.first; hole < stage.beyond; hole++) {
        const span = spans[2 * hole]!;
        const drawn = span < 0 ? -span : span;
        const since = now - spans[2 * hole + 1]!;
        if (since >= drawn) continue;
        const k = sums.kindOf(holes, stage, hole);
        used += tableLitres(this.#table, k * STAY_SIZE, drawn, since / drawn);
        // Unless it is to die, it was booked as if it were to end ripe.
        if (span > 0) used -= drawn * this.#off[k]! + this.#kept[k]!;
      }
    }
    return used;
  }
}
