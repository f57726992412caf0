/**
 * What stays take where the air changes by date: the book of stays.ts and stay-totals.ts for plans of which that is told.
 *
 * Where plants take r times as long, a stay of growth T comes from progress u to u' in r T (u' - u) days, with r T (F(u') - F(u)) days of light on
 * leaves; so a stay is booked stretch by stretch of one air. As in stays.ts what is to end ripe is booked when it begins, and what of that is
 * still to come is taken off when all is worked out. Waiting is summed as litres that a plant waiting since the start would have given off.
 */

import type { EventQueue } from '../../engine/event-queue.js';
import { type GrowthClock, growthClocks } from '../growth-clock.js';
import { seasonDays } from '../plan.js';
import * as route from '../route.js';
import { DIE, type Holes, RIPEN } from './holes.js';
import { readyOf, type Stage } from './stage.js';
import type { StayPlan } from './stay-kinds.js';
import type { StaySums } from './stay-sums.js';

export class DatedStays {
  readonly #by: StayPlan;
  readonly #sums: StaySums;
  /** Stretches of the season, and where each begins [d]; the last never ends. */
  readonly #stretches: number;
  readonly #from: Float64Array;
  /** Of the season [d]. */
  readonly #end: number;
  /** By stage and stretch: litres a day of cover and of leaf layers. */
  readonly #perCover: Float64Array;
  readonly #perLayer: Float64Array;
  /** By kind of stay and stretch: what a ready plant gives off in a day [L], and from the start to the stretch. */
  readonly #readyL: Float64Array;
  readonly #readyBefore: Float64Array;
  readonly #clocks: readonly (GrowthClock | null)[] | null;
  /** By stage and stretch, of all that has begun: days of light on leaves and of leaf layers [d]; and as it is by some moment. */
  readonly #cover: Float64Array;
  readonly #layers: Float64Array;
  readonly #coverNow: Float64Array;
  readonly #layersNow: Float64Array;
  /** By kind: what is over of waiting, less what those would have given off since the start that wait since [L]. */
  readonly #waitedL: Float64Array;
  /** By hole: the growth that was drawn for what grows there [d]. */
  readonly #growth: Float64Array;

  /** @returns null where no date makes a difference */
  static of(by: StayPlan, sums: StaySums, holes: number): DatedStays | null {
    const { plan, matter, kinds } = by;
    const clocks = growthClocks(plan);
    const dries = matter.stages.some(({ waterByDate }) => waterByDate.length > 0);
    return kinds.length > 0 && (clocks !== null || dries) ? new DatedStays(by, sums, holes, clocks) : null;
  }

  private constructor(
    by: StayPlan,
    sums: StaySums,
    holes: number,
    clocks: readonly (GrowthClock | null)[] | null,
  ) {
    const { matter, plan, kinds } = by;
    const { air, stages, physical } = matter;
    this.#by = by;
    this.#sums = sums;
    this.#clocks = clocks;
    this.#stretches = air.length;
    this.#from = Float64Array.from(air, ({ from }) => from);
    this.#end = seasonDays(plan);
    const perDay = (of: 'cover' | 'leaf'): Float64Array =>
      Float64Array.from(
        stages.flatMap(({ water, waterByDate, areaM2 }) =>
          air.map((_, i) => {
            const here = waterByDate[i] ?? water;
            return here === null ? 0 : physical.waterScale * areaM2! * here.day[of];
          }),
        ),
      );
    this.#perCover = perDay('cover');
    this.#perLayer = perDay('leaf');
    this.#readyL = Float64Array.from(
      kinds.flatMap((kind, k) =>
        air.map((_, i) => {
          const at = this.#stageOf(k) * air.length + i;
          if (kind === null) return 0;
          return this.#perCover[at]! * kind.curve.cover(1) + this.#perLayer[at]! * kind.curve.leafLayers(1);
        }),
      ),
    );
    this.#readyBefore = new Float64Array(kinds.length * air.length);
    for (let at = 0; at < this.#readyBefore.length; at++) {
      const i = at % air.length;
      if (i > 0)
        this.#readyBefore[at] =
          this.#readyBefore[at - 1]! + this.#readyL[at - 1]! * (this.#from[i]! - this.#from[i - 1]!);
    }
    this.#cover = new Float64Array(stages.length * air.length);
    this.#layers = new Float64Array(stages.length * air.length);
    this.#coverNow = new Float64Array(air.length);
    this.#layersNow = new Float64Array(air.length);
    this.#waitedL = new Float64Array(kinds.length);
    this.#growth = new Float64Array(holes);
  }

  /** Nothing booked. */
  reset(): void {
    this.#cover.fill(0);
    this.#layers.fill(0);
    this.#waitedL.fill(0);
  }

  /** What stands in a hole begins to grow. @param growth drawn for it [d] @param queue has the end of it */
  begin(kind: number, hole: number, fate: number, growth: number, queue: EventQueue): void {
    const clock = this.#clocks === null ? null : this.#clocks[kind]!;
    const until = queue.timeOf(hole);
    // What ripens on the grid has grown by then what it was to grow.
    const grown = fate === RIPEN && clock !== null ? clock.growth(queue.now, until) : growth;
    this.#growth[hole] = grown;
    if (fate !== RIPEN) return;
    const at = this.#stageOf(kind) * this.#stretches;
    const i = this.#stretchOf(queue.now);
    const beyond = i + 1 < this.#stretches ? this.#from[i + 1]! : this.#end;
    if (until > beyond) {
      this.#book(this.#cover, this.#layers, at, kind, hole, queue.now, until, true, 1);
      return;
    }
    // The usual case cut short: a whole stay in one air.
    const { cover, layers } = this.#by.kinds[kind]!;
    this.#cover[at + i]! += (until - queue.now) * cover;
    this.#layers[at + i]! += (until - queue.now) * layers;
  }

  /** What stands in a hole when a season is taken up. @param needs growth drawn for it, if it will die [d] @param queue has the end of it */
  stand(kind: number, hole: number, fate: number, needs: number, queue: EventQueue): void {
    if (fate === DIE) this.#growth[hole] = needs;
    if (fate !== RIPEN) return;
    this.#growth[hole] = this.#grown(kind, hole, queue.timeOf(hole));
  }

  ripen(kind: number, now: number): void {
    this.#waitedL[kind]! -= this.#readyUntil(kind, now);
  }

  leave(kind: number, now: number): void {
    this.#waitedL[kind]! += this.#readyUntil(kind, now);
  }

  /** A plant dies. */
  lose(kind: number, stage: Stage, hole: number, now: number): void {
    const since = this.#sums.since[hole]!;
    const at = stage.place * this.#stretches;
    this.#book(this.#cover, this.#layers, at, kind, hole, since, now, false, 1);
  }

  /** How far what grows in a hole has come [0..1]. */
  progress(kind: number, hole: number, now: number): number {
    return Math.min(1, this.#grown(kind, hole, now) / this.#growth[hole]!);
  }

  /** Growth by a time of what stands in a hole since it came, in usual days [d]. */
  #grown(kind: number, hole: number, by: number): number {
    const since = this.#sums.since[hole]!;
    const clock = this.#clocks === null ? null : this.#clocks[kind]!;
    return clock === null ? by - since : clock.growth(since, by);
  }

  /**
   * Work out a stage as it is at `now`: days of light on leaves and of leaf layers [d], litres given off and those in plants.
   * @param isOver whether what happens by itself at that instant has happened
   */
  take(stage: Stage, holes: Holes, queue: EventQueue, now: number, isOver: boolean): DatedTotals {
    const { kinds } = this.#by;
    const n = this.#stretches;
    const totals = this.#totals;
    totals.standingL = 0;
    totals.givenOffL = 0;
    for (let i = 0; i < n; i++) {
      this.#coverNow[i] = this.#cover[stage.place * n + i]!;
      this.#layersNow[i] = this.#layers[stage.place * n + i]!;
    }
    for (let c = 0; c < stage.crops.length; c++) {
      const kind = kinds[stage.crops[c]!.kind] ?? null;
      if (kind === null) continue;
      const ready = readyOf(stage.crops[c]!, holes);
      totals.standingL += ready * kind.toL;
      totals.givenOffL +=
        this.#waitedL[stage.crops[c]!.kind]! + ready * this.#readyUntil(stage.crops[c]!.kind, now);
    }
    for (let hole = stage.first; hole < stage.beyond; hole++) {
      const dies = holes.fate[hole] === DIE;
      if (!dies && holes.fate[hole] !== RIPEN) continue;
      const until = queue.timeOf(hole);
      if (until < now || (until === now && isOver)) continue;
      const k = this.#sums.kindOf(holes, stage, hole);
      const { curve, litresAG } = kinds[k]!;
      totals.standingL += litresAG * curve.massG(this.progress(k, hole, now));
      if (dies) {
        const since = this.#sums.since[hole]!;
        this.#book(this.#coverNow, this.#layersNow, 0, k, hole, since, now, false, 1);
      } else this.#book(this.#coverNow, this.#layersNow, 0, k, hole, now, until, true, -1);
    }
    totals.cover = 0;
    totals.layers = 0;
    for (let i = 0; i < n; i++) {
      const cover = this.#coverNow[i]!;
      const layers = this.#layersNow[i]!;
      const at = stage.place * n + i;
      totals.cover += cover;
      totals.layers += layers;
      totals.givenOffL += this.#perCover[at]! * cover + this.#perLayer[at]! * layers;
    }
    return totals;
  }

  readonly #totals: DatedTotals = { cover: 0, layers: 0, givenOffL: 0, standingL: 0 };

  /**
   * Add (or take off: `sign`) what a stay brings from one moment to another of it.
   * @param at where the stretches begin in `cover` and `layers`
   * @param ripens does it end ripe at `to`?
   */
  #book(
    cover: Float64Array,
    layers: Float64Array,
    at: number,
    kind: number,
    hole: number,
    from: number,
    to: number,
    ripens: boolean,
    sign: number,
  ): void {
    const { curve, cover: wholeCover, layers: wholeLayers } = this.#by.kinds[kind]!;
    // Beyond the season nothing is booked, and the air is not known by stretches.
    const last = Math.min(to, this.#end);
    let i = this.#stretchOf(from);
    let t = from;
    let u = this.progress(kind, hole, from);
    let coverUpTo = curve.coverTime(u);
    let layersUpTo = curve.leafTime(u);
    while (t < last) {
      const end = i + 1 < this.#stretches ? Math.min(last, this.#from[i + 1]!) : last;
      const isRipe = ripens && end === to;
      const next = isRipe ? 1 : this.progress(kind, hole, end);
      const coverNext = isRipe ? wholeCover : curve.coverTime(next);
      const layersNext = isRipe ? wholeLayers : curve.leafTime(next);
      // Days for progress of 1: in one stretch they are all alike.
      const days = next > u ? (end - t) / (next - u) : 0;
      cover[at + i]! += sign * days * (coverNext - coverUpTo);
      layers[at + i]! += sign * days * (layersNext - layersUpTo);
      u = next;
      coverUpTo = coverNext;
      layersUpTo = layersNext;
      t = end;
      i++;
    }
  }

  /** What a plant of a kind would have given off that is ready since the start [L]. */
  #readyUntil(kind: number, t: number): number {
    const i = this.#stretchOf(t);
    const at = kind * this.#stretches + i;
    return this.#readyBefore[at]! + this.#readyL[at]! * (t - this.#from[i]!);
  }

  #stretchOf(t: number): number {
    let i = this.#stretches - 1;
    while (i > 0 && this.#from[i]! > t) i--;
    return i;
  }

  /** The stage of a kind of stay: between two cuts, the last. */
  #stageOf(kind: number): number {
    const { plan } = this.#by;
    return Math.min(Math.floor(kind / plan.crops.length), route.last(plan));
  }
}

/** What a stage has come to: the same object at every call. */
export interface DatedTotals {
  cover: number;
  layers: number;
  givenOffL: number;
  standingL: number;
}
