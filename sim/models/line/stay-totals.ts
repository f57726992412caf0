/**
 * What the stays of a season have come to by some moment of it: at its end, and, for a tank, at visits.
 *
 * All holes are gone through for what grows in them: a stay of which u is over has T x F(u) days of light on leaves. F, the same of leaf
 * layers and the mass come from softplus and its integral, and these from a table. Everything else is in the sums already.
 */

import type { EventQueue } from '../../engine/event-queue.js';
import {
  cellsBefore,
  PER_CELL,
  polynomial,
  softplusTable,
  TO_INTEGRAL,
} from '../../engine/softplus-table.js';
import { LEAF_LAYERS } from '../physical/cover.js';
import { pickL } from '../physical/line-matter.js';
import * as route from '../route.js';
import { DIE, type Holes, RIPEN } from './holes.js';
import { readyOf, type Stage } from './stage.js';
import { QUICK, quickCurves, type StayPlan } from './stay-kinds.js';
import type { StaySums } from './stay-sums.js';

export class StayTotals {
  /* By stage: days of light on leaves, and of leaf layers that give off water [d]; given off [L]. */
  readonly cover: Float64Array;
  readonly layers: Float64Array;
  readonly givenOffL: Float64Array;
  /** Water in plants that stand, and in what died or was thrown away [L]. */
  standingL = 0;
  thrownL = 0;
  /** Taken from the tank: given off, or in plants that came from seeds [L]. */
  usedL = 0;

  readonly #by: StayPlan;
  readonly #sums: StaySums;
  readonly #table = softplusTable();
  readonly #quick: Float64Array;
  /** Is there one kind of stay in each stage? */
  readonly #isAlone: boolean;
  /** Litres a day of cover and of leaf layers in each stage; water in a pick and in a seed of each crop [L]. */
  readonly #perCover: Float64Array;
  readonly #perLayer: Float64Array;
  readonly #pickL: Float64Array;
  readonly #seedL: Float64Array;

  constructor(by: StayPlan, sums: StaySums) {
    const { matter, plan, kinds } = by;
    const { waterScale } = matter.physical;
    this.#by = by;
    this.#sums = sums;
    this.#quick = quickCurves(kinds);
    this.#isAlone = plan.crops.length === 1 && plan.crops[0]!.cuts === 1;
    const perDay = (of: 'cover' | 'leaf'): Float64Array =>
      Float64Array.from(matter.stages, ({ water, areaM2 }) =>
        water === null ? 0 : waterScale * areaM2! * water.day[of],
      );
    this.#perCover = perDay('cover');
    this.#perLayer = perDay('leaf');
    this.#pickL = Float64Array.from(plan.crops, (_, c) => pickL(matter, c));
    this.#seedL = Float64Array.from(
      plan.crops,
      (crop, c) => kinds[route.first(crop) * plan.crops.length + c]!.fromL,
    );
    this.cover = new Float64Array(plan.stages.length);
    this.layers = new Float64Array(plan.stages.length);
    this.givenOffL = new Float64Array(plan.stages.length);
  }

  /** Work everything out as it is at `now` [d]. @param isOver whether what happens by itself at that instant has happened */
  take(stages: readonly Stage[], holes: Holes, queue: EventQueue, now: number, isOver: boolean): void {
    const { kinds, plan } = this.#by;
    const { begun, thrownL, picked, barren, failed } = this.#sums;
    const crops = plan.crops.length;
    this.standingL = 0;
    this.thrownL = 0;
    this.usedL = 0;
    for (let s = 0; s < stages.length; s++) {
      this.#takeEnded(stages[s]!, holes, now);
      for (let k = 0; k < kinds.length; k++) {
        if (this.#isOf(k, stages[s]!)) this.#takeGrowing(k, stages[s]!, holes, queue, now, isOver);
      }
      this.givenOffL[s]! += this.#perCover[s]! * this.cover[s]! + this.#perLayer[s]! * this.layers[s]!;
      this.thrownL += thrownL[s]!;
      this.usedL += this.givenOffL[s]!;
    }
    for (let c = 0; c < crops; c++) {
      const cut = stages.length * crops + c;
      // What is left of a plant after its last cut.
      if (kinds[cut] !== null) this.thrownL += (picked[c]! - begun[cut]!) * kinds[cut]!.fromL;
      this.standingL += (barren[c]! - failed[c]!) * this.#seedL[c]!;
      this.thrownL += failed[c]! * this.#seedL[c]!;
      this.usedL += picked[c]! * this.#pickL[c]! - begun[stages[0]!.place * crops + c]! * this.#seedL[c]!;
    }
    this.usedL += this.standingL + this.thrownL;
  }

  /** Can stays of kind `k` be in a stage? */
  #isOf(k: number, { place, next, crops }: Stage): boolean {
    const of = Math.floor(k / crops.length);
    return this.#by.kinds[k] !== null && (of === place || (of > place && next === null));
  }

  /** What has ended in a stage, as if all that grows there were to end ripe; and what waits. */
  #takeEnded(stage: Stage, holes: Holes, now: number): void {
    const { kinds, plan } = this.#by;
    const { days, deadCover, deadLayers } = this.#sums;
    const s = stage.place;
    let cover = deadCover[s]!;
    let layers = deadLayers[s]!;
    let waitingL = 0;
    for (let c = 0; c < stage.crops.length; c++) {
      const k = s * stage.crops.length + c;
      const kind = kinds[k] ?? null;
      if (kind === null) continue;
      const ready = readyOf(stage.crops[c]!, holes);
      cover += days[k]! * kind.cover;
      layers += days[k]! * kind.layers;
      waitingL += this.#sums.waitedBy(k, ready, now) * kind.readyL;
      this.standingL += ready * kind.toL;
      const cut = stage.next === null ? (kinds[plan.stages.length * stage.crops.length + c] ?? null) : null;
      if (cut === null) continue;
      cover += days[plan.stages.length * stage.crops.length + c]! * cut.cover;
      layers += days[plan.stages.length * stage.crops.length + c]! * cut.layers;
    }
    this.cover[s] = cover;
    this.layers[s] = layers;
    this.givenOffL[s] = waitingL;
  }

  /**
   * What grows in a stage and is of kind `k` is put right. What would be ripe at the very end of the season has not ripened, nor has what
   * would be at a moment of which nothing has happened yet.
   * Constants are taken out of the loop: it is gone through for every hole at every visit that is looked at.
   */
  #takeGrowing(k: number, stage: Stage, holes: Holes, queue: EventQueue, now: number, isOver: boolean): void {
    const { curve, litresAG } = this.#by.kinds[k]!;
    const { since, doomedDays } = this.#sums;
    const { fate } = holes;
    const table = this.#table;
    const isSole = this.#isAlone;
    const number = (place: number): number => this.#quick[k * QUICK.size + place]!;
    const isQuick = number(QUICK.there) === 1;
    const shows = number(QUICK.shows);
    const start = number(QUICK.start);
    const pace = number(QUICK.pace);
    const climbs = number(QUICK.climbs);
    const fromSoft = number(QUICK.from);
    const fromIntegral = number(QUICK.fromIntegral);
    const full = number(QUICK.full);
    const upToFull = number(QUICK.upToFull);
    const perLayer = number(QUICK.layers);
    const litres = number(QUICK.litres);
    const wholeCover = number(QUICK.wholeCover);
    const wholeLayers = number(QUICK.wholeLayers);
    let cover = 0;
    let layers = 0;
    let standingL = 0;
    for (let hole = stage.first; hole < stage.beyond; hole++) {
      const dies = fate[hole] === DIE;
      if (!dies && fate[hole] !== RIPEN) continue;
      const until = queue.timeOf(hole);
      if (until < now || (until === now && isOver)) continue;
      if (!isSole && this.#sums.kindOf(holes, stage, hole) !== k) continue;
      const from = since[hole]!;
      const drawn = dies ? doomedDays[hole]! : until - from;
      const u = (now - from) / drawn;
      // Unless it is to die, it was booked as if it were to end ripe.
      if (!dies) {
        cover -= drawn * wholeCover;
        layers -= drawn * wholeLayers;
      }
      if (!isQuick) {
        cover += drawn * curve.coverTime(u);
        layers += drawn * curve.leafTime(u);
        standingL += litresAG * curve.massG(u);
        continue;
      }
      const l = start + (u > shows ? pace * (u - shows) : 0);
      const along = cellsBefore(l);
      // Cut off to an integer: faster than to a rounded number.
      const whole = along | 0;
      const place = along - whole;
      const cell = whole * PER_CELL;
      const soft = polynomial(table, cell, place);
      const grown = drawn * climbs;
      standingL += litres * soft;
      cover += grown * (soft - fromSoft);
      layers +=
        grown *
        (l > full
          ? upToFull + LEAF_LAYERS * l
          : perLayer * (polynomial(table, cell + TO_INTEGRAL, place) - fromIntegral));
    }
    this.cover[stage.place]! += cover;
    this.layers[stage.place]! += layers;
    this.standingL += standingL;
  }
}
