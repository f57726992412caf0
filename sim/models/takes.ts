/**
 * What a season took beyond its holes, as a row of figures, for tallies that sum without rounding (engine/exact-moments.ts).
 *
 * A figure is a multiple of a tick of the clock's grid, from 0 to 2^29. Counts are whole. What is not on the grid by itself (litres,
 * days on leaves) is summed in doubles while the season runs, put on a grid of its own once, at the end, and told in a unit of its own:
 * a power of two, chosen so that the most that a season of the plan can bring just fits. So a figure is off by less than 2^-52 of that
 * most, and the order in which seasons are summed does not matter.
 */

import { toGrid } from '../engine/clock.js';
import { LEAF_LAYERS } from './physical/cover.js';
import { type LineMatter, plantL } from './physical/line-matter.js';
import type { TankPlan } from './physical/plan.js';
import { mostVisitMinutes } from './physical/work.js';
import { holesOf, holesOfLine, type Plan, seasonDays, seedsDueOf } from './plan.js';
import * as route from './route.js';

/** What one season took. The simulator hands out the same object again for every season: copy what must last. */
export interface SeasonTakes {
  /** One figure for each column of `TakesColumns`, in its unit. */
  readonly row: Float64Array;
  /** What the tank went through from visit to visit, in TANK_COLUMNS; null in a season that is not looked at so closely. */
  tank: Float64Array | null;
}

/** Of each season whose number is a multiple of this the tank is looked at from visit to visit: coprime to the sections of a study. */
export const TANK_EVERY = 81;

/**
 * Most litres used from one visit to the next or to the end; litres used between the visits at which the tank is filled anew and those
 * before them; days for which a forecast of the conductivity is good (0 without one).
 */
export const TANK_COLUMNS = { mostBetweenVisits: 0, beforeChanges: 1, ecGoodDays: 2, count: 3 } as const;

/** Share of the visits of a season that are no longer than a usual one, and than a full one: 1 in 10 is longer. */
export const USUAL_VISIT = 0.5;
export const FULL_VISIT = 0.9;

/** Figures of each stage, in this order, then of each crop, then of the whole. */
const OF_STAGE = 2;
const OF_CROP = 2;

export class TakesColumns {
  readonly width: number;
  /** Of each column: what 1 stands for; and of each of TANK_COLUMNS. */
  readonly units: Float64Array;
  readonly tankUnits = new Float64Array(TANK_COLUMNS.count).fill(1);
  /** Plants moved from stage to stage; dead ones, failed seeds and thrown ones cleared; holes sent to cleaning. */
  readonly moved: number;
  readonly cleared: number;
  readonly cleaned: number;
  /** Water in plants that stand at the end, and in what was thrown away or died [L]. */
  readonly standing: number;
  readonly thrownOut: number;
  /** Used until the last visit [L]. */
  readonly usedByLastVisit: number;
  /** A usual and a full visit of the season [min]; 0 where nothing is told of work. */
  readonly usualVisit: number;
  readonly fullVisit: number;
  readonly #crops: number;

  constructor(plan: Plan, matter: LineMatter) {
    this.#crops = plan.stages.length * OF_STAGE;
    let next = this.#crops + plan.crops.length * OF_CROP;
    this.moved = next++;
    this.cleared = next++;
    this.cleaned = next++;
    this.standing = next++;
    this.thrownOut = next++;
    this.usedByLastVisit = next++;
    this.usualVisit = next++;
    this.fullVisit = next++;
    this.width = next;
    this.units = new Float64Array(next).fill(1);
    const most = mostLitres(plan, matter);
    plan.stages.forEach((stage, s) => {
      this.units[this.leafDays(s)] = unitFor(holesOf(stage) * seasonDays(plan));
      this.units[this.transpired(s)] = unitFor(most.transpired[s]!);
    });
    for (const column of [this.standing, this.thrownOut]) this.units[column] = unitFor(most.inPlants);
    this.units[this.usedByLastVisit] = unitFor(most.used);
    const { work } = matter.physical;
    const longest = work === null ? 0 : mostVisitMinutes(work, holesOfLine(plan));
    for (const column of [this.usualVisit, this.fullVisit]) this.units[column] = unitFor(longest);
    this.tankUnits[TANK_COLUMNS.mostBetweenVisits] = unitFor(most.used);
    this.tankUnits[TANK_COLUMNS.beforeChanges] = unitFor(most.used);
  }

  /** Hole-days of a stage on which leaves caught the light: cover x time [d]. */
  leafDays(stage: number): number {
    return stage * OF_STAGE;
  }

  /** Given off in a stage [L]. */
  transpired(stage: number): number {
    return stage * OF_STAGE + 1;
  }

  /** Seeds of a crop. */
  sown(crop: number): number {
    return this.#crops + crop * OF_CROP;
  }

  /** Picks of a crop. */
  picked(crop: number): number {
    return this.#crops + crop * OF_CROP + 1;
  }
}

/** A figure on the grid of its column, in its unit. */
export function inUnits(value: number, unit: number): number {
  return toGrid(value / unit);
}

/** Of each visit: is the tank filled anew then? The first one so many days after the last filling; full it is on day 0. */
export function changeVisits({ changeDays }: TankPlan, days: readonly number[]): Uint8Array {
  let filledOn = 0;
  return Uint8Array.from(days, (day) => {
    if (changeDays === null || day - filledOn < changeDays) return 0;
    filledOn = day;
    return 1;
  });
}

/** A power of two of which `most` is at most 2^28: double that is left for what a bound may have been rounded. */
function unitFor(most: number): number {
  if (!(most > 0 && most < Infinity)) return 1;
  let unit = 1;
  while (most > unit * 2 ** 28) unit *= 2;
  while (most <= unit * 2 ** 27) unit /= 2;
  return unit;
}

/** More than a season can take [L]. */
function mostLitres(plan: Plan, matter: LineMatter) {
  const days = seasonDays(plan);
  const scale = matter.physical.waterScale;
  const transpired = plan.stages.map((stage, s) => {
    const { water, waterByDate, areaM2 } = matter.stages[s]!;
    if (water === null) return 0;
    const most = Math.max(...[water, ...waterByDate].map(({ day }) => day.cover + LEAF_LAYERS * day.leaf));
    return holesOf(stage) * days * scale * areaM2! * most;
  });
  const heaviest = plan.crops.map((_, c) => {
    const { courses } = matter;
    const course = courses[c]!;
    return course === null ? 0 : plantL(matter, c, Math.max(...course.curves.map(({ toG }) => toG)));
  });
  const inPlants = plan.crops.reduce((sum, crop, c) => {
    // A refill sows each hole of its stage once a day at most.
    const refilled = holesOf(plan.stages[route.first(crop)]!) * days;
    const seeds = crop.sowing.kind === 'due' ? seedsDueOf(plan, crop) : refilled;
    return sum + seeds * crop.cuts * heaviest[c]!;
  }, 0);
  return { transpired, inPlants, used: transpired.reduce((sum, litres) => sum + litres, inPlants) };
}
