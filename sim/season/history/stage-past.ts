/**
 * A past of one stage that agrees with the log, drawn at random: which plants of a batch came in when, when those that had
 * to wait for a hole became ready, and what the plants that stand are about to do.
 *
 * All of it is unknown, and all of it together has a probability by the plan's laws and the rules of the line:
 *
 * - what moved on, or was picked, was ready by then, and not yet at the last visit that left holes free;
 * - of two plants of which one went on at a visit and the other had to stay, the first was ready first;
 * - nothing that stands was dead at the last visit, nor had been ready for longer than it keeps; where losses are not logged it may
 *   have been dead;
 * - what a `stand` row found came in on a day of its span, each as likely by itself; if the row says nothing, on a day from
 *   which on it can have grown (to the 99th percentile of its time) and have been kept by then.
 *
 * The past is changed bit by bit, each bit drawn anew given all the others (Gibbs sampling, Geman & Geman 1984, IEEE
 * Transactions on Pattern Analysis and Machine Intelligence 6:721-741; exchanges of two plants by the rule of Metropolis
 * et al. 1953; both from memory). After some rounds it is a draw from all pasts that agree, each as often as it is likely.
 */

import { TICK, toGrid } from '../../engine/clock.js';
import { groupedBy, sumOf } from '../../engine/lists.js';
import type { Uniform } from '../../engine/random.js';
import type { GrowthLaw } from './growth-law.js';
import type { Growth, StageGrowths } from './growths.js';
import { initialCutoffs } from './initial-cutoffs.js';
import type { Span } from './logged-season.js';
import { HARDLY } from './overdue.js';
import type { ShortVisits } from './short-visits.js';

/** What a plant that stands is about to do. */
export type Fate = 'ripen' | 'die' | 'fail';

const FATES = ['ripen', 'die', 'fail'] as const satisfies readonly Fate[];
const [RIPEN, DIE, FAIL] = [0, 1, 2];

/** Plants that are alike, with what is likely of them. They are `first` to `beyond` - 1 among all plants. */
interface Alike {
  readonly growth: Growth;
  readonly law: GrowthLaw;
  readonly first: number;
  readonly beyond: number;
  /** How likely their end is if they came in on a day; kept where it depends on nothing else. */
  readonly known: Map<number, number>;
}

/** Place of no span. */
const DATED = -1;

export class StagePast {
  readonly #visits: readonly number[];
  readonly #short: ShortVisits;
  readonly #firstVisit: number;
  readonly #uniform: Uniform;
  readonly #alike: readonly Alike[];

  /* Of each plant, in the order of the growths; a large line has millions, so these are what takes memory. */
  /** Place of those that are like it. */
  readonly #kind: Uint32Array;
  /** Day on which it came in [d], whole. */
  readonly #from: Int32Array;
  /** When it became, or becomes, ready [d]; of use only if it is tied, and not for a plant that will die or fail. */
  readonly #ready: Float64Array;
  /** Of a plant that stands: place in FATES. */
  readonly #fate: Uint8Array;
  /** Place of the span in which it can have come in, or DATED; empty if there is none of any. */
  readonly #since: Int32Array;
  readonly #spans: readonly Span[];

  /** Plants that cannot be told apart but by when they came in, where that was not one day for all. */
  readonly #groups: readonly Uint32Array[];
  readonly #standing: readonly Alike[];
  readonly #gone: readonly Alike[];
  /** Those of which perhaps only a span of days is known in which they came in, and their like. */
  readonly #undated: readonly Alike[];
  /** Tied plants that left, by the place of the visit. */
  readonly #left: readonly Alike[][];
  readonly #standingQueued: boolean;
  readonly #unlogged: boolean;
  /** The earliest that a plant can have become ready that was left behind at a visit [d]. */
  readonly #cutoff: Float64Array;

  /**
   * @param lawOf what is likely of a growth
   * @param visits at least one, ascending [d]
   * @param short visits at which holes were short
   * @param unlogged whether what is lost here is not logged
   * @param uniform numbers between 0 and 1
   */
  constructor(
    { growths, firstVisit }: StageGrowths,
    lawOf: (growth: Growth) => GrowthLaw,
    visits: readonly number[],
    short: ShortVisits,
    unlogged: boolean,
    uniform: Uniform,
  ) {
    this.#visits = visits;
    this.#short = short;
    this.#firstVisit = firstVisit;
    this.#unlogged = unlogged;
    this.#uniform = uniform;
    this.#left = visits.map(() => []);
    this.#cutoff = new Float64Array(visits.length);
    let plants = 0;
    this.#alike = growths.map((growth) => {
      const first = plants;
      plants += growth.count;
      return { growth, law: lawOf(growth), first, beyond: plants, known: new Map() };
    });
    this.#kind = new Uint32Array(plants);
    this.#from = new Int32Array(plants);
    this.#ready = new Float64Array(plants);
    this.#fate = new Uint8Array(plants);
    const dated = growths.every(({ since }) => since === undefined);
    this.#since = new Int32Array(dated ? 0 : plants).fill(DATED);
    const spans: Span[] = [];
    for (const [kind, { growth, law, first, beyond }] of this.#alike.entries()) {
      this.#kind.fill(kind, first, beyond);
      this.#from.fill(growth.from, first, beyond);
      this.#ready.fill(growth.from, first, beyond);
      if (growth.since === undefined) continue;
      this.#since.fill(spans.length, first, beyond);
      spans.push(boundedSpan(growth.since, law));
    }
    this.#spans = spans;
    this.#standing = this.#alike.filter(({ growth }) => growth.end === 'standing');
    this.#gone = this.#alike.filter(({ growth }) => growth.end !== 'standing');
    for (const one of this.#gone) if (one.growth.queued) this.#left[one.growth.visit]!.push(one);
    const groups = [...groupedBy(this.#alike, ({ growth }) => `${growth.batch} ${growth.phase}`).values()];
    this.#groups = groups
      .filter((some) => some.some(({ growth }) => growth.from !== some[0].growth.from))
      .map(placesOf);
    this.#undated = groups.filter((some) => some.some(({ growth }) => growth.since !== undefined)).flat();
    this.#standingQueued = short[visits.length - 1] === 1 && this.#standing.length > 0;
    this.#begin();
  }

  /** Whether there is anything that takes rounds to settle. */
  get settles(): boolean {
    return this.#groups.length > 0 || this.#undated.length > 0 || this.#standingQueued;
  }

  /** One round: every bit is drawn anew. */
  round(): void {
    for (const members of this.#groups) for (let i = 0; i < members.length; i++) this.#exchange(members);
    for (const { first, beyond } of this.#undated) for (let i = first; i < beyond; i++) this.#drawEntry(i);
    this.#drawReady();
    // Where they bear on nothing else, it is soon enough when they are told.
    if (this.#standingQueued) this.#drawStanding();
  }

  /**
   * What the plants that stand are about to do, in the order of the growths.
   * @param hear is given the growth, what it is about to do and when [d] (a time up to the last visit: it is ready),
   * whether by the plan's laws hardly one such plant would still stand there and grow, when it came in [d], and how long
   * after that it would have been ready, had it not been lost [d] (of one that was lost by the last visit: until it was)
   */
  tell(
    hear: (growth: Growth, fate: Fate, at: number, overdue: boolean, from: number, needs: number) => void,
  ): void {
    const last = this.#visits.at(-1)!;
    if (!this.#standingQueued) this.#drawStanding();
    for (const { growth, law, first, beyond } of this.#standing) {
      for (let i = first; i < beyond; i++) {
        const from = this.#from[i]!;
        const fate = this.#fate[i]!;
        let at = this.#ready[i]!;
        let needs: number | null = null;
        const age = last - from;
        if (fate === DIE) {
          if (this.#isOver(law.dyingBeyond(age))) at = last + TICK;
          else {
            const death = law.deathBeyond(age, this.#uniform);
            at = from + death.dies;
            needs = death.needs;
          }
        }
        if (fate === FAIL)
          at = this.#isOver(law.beyond(age))
            ? last + TICK
            : from + law.timeWithin(age + TICK, Infinity, this.#uniform());
        hear(growth, FATES[fate]!, at, this.#growsOn(law, from) < HARDLY, from, needs ?? at - from);
      }
    }
  }

  /**
   * What those did that left, in the order of the growths.
   * @param hear is given the growth, whether it became ready (else it died or failed), when [d], and when it came in [d]
   */
  tellLeft(hear: (growth: Growth, ready: boolean, at: number, from: number) => void): void {
    for (const alike of this.#gone)
      for (let i = alike.first; i < alike.beyond; i++) this.#tellOne(alike, i, hear);
  }

  #tellOne(
    alike: Alike,
    i: number,
    hear: (growth: Growth, ready: boolean, at: number, from: number) => void,
  ): void {
    const { growth, law } = alike;
    const from = this.#from[i]!;
    const visit = this.#visits[growth.visit]!;
    const most = this.#most(alike, visit);
    if (growth.end !== 'dead') {
      // Where it bears on nothing else, it is soon enough now.
      if (!growth.queued) this.#setReady(alike, i, this.#least(alike, i, growth.visit), most);
      // What is said to have been thrown away and cannot have been ready for so long, was dead.
      if (growth.end === 'on' || this.#ready[i]! <= most) {
        hear(growth, true, this.#ready[i]!, from);
        return;
      }
    }
    const before = Math.max(0, (this.#visits[growth.visit - 1] ?? from) - from);
    hear(growth, false, from + law.deathBetween(before, visit - from, this.#uniform), from);
  }

  /** Whether a plant that is lost was lost by the last visit already. @param later chance that it is lost after it */
  #isOver(later: number): boolean {
    return this.#unlogged && this.#uniform() >= later;
  }

  /* ---- the beginning ---- */

  #begin(): void {
    const cutoffs = initialCutoffs(this.#left, this.#standing, this.#visits, this.#short, this.#firstVisit);
    this.#drawLeft((visit) => cutoffs[visit]!);
    this.#drawStanding();
  }

  /* ---- rounds ---- */

  /** Let two plants of a batch change places: each came in when the other did. */
  #exchange(members: Uint32Array): void {
    const a = members[Math.floor(this.#uniform() * members.length)]!;
    const b = members[Math.floor(this.#uniform() * members.length)]!;
    const from = this.#from[a]!;
    const otherFrom = this.#from[b]!;
    if (from === otherFrom) return;
    const now = this.#weight(a, from) * this.#weight(b, otherFrom);
    const then = this.#weight(a, otherFrom) * this.#weight(b, from);
    if (!(then > 0) || this.#uniform() * now >= then) return;
    this.#from[a] = otherFrom;
    this.#from[b] = from;
    if (this.#spans.length === 0) return;
    const since = this.#since[a]!;
    this.#since[a] = this.#since[b]!;
    this.#since[b] = since;
  }

  /** Let a plant have come in on another day of its span. */
  #drawEntry(i: number): void {
    if (this.#since[i] === DATED) return;
    const since = this.#spans[this.#since[i]!]!;
    for (let tries = 0; tries < ENTRIES; tries++) {
      const other = since.from + Math.floor(this.#uniform() * (since.to - since.from + 1));
      const then = this.#weight(i, other);
      if (then > 0 && this.#uniform() * this.#weight(i, this.#from[i]!) < then) this.#from[i] = other;
    }
  }

  /** When those became ready that left: before those that stayed. */
  #drawReady(): void {
    const until = this.#leastAfter();
    this.#drawLeft((visit) => Math.min(this.#visits[visit]!, until[visit]!));
  }

  /** Visit by visit: when those became ready that left then, after those that left before. @param before what moment, where holes were short */
  #drawLeft(before: (visit: number) => number): void {
    for (let visit = this.#firstVisit; visit < this.#visits.length; visit++) {
      const latest = this.#short[visit] === 1 ? before(visit) : this.#visits[visit]!;
      for (const alike of this.#left[visit]!) {
        const most = this.#most(alike, latest);
        for (let i = alike.first; i < alike.beyond; i++)
          this.#setReady(alike, i, this.#least(alike, i, visit), most);
      }
      this.#pushCutoff(visit);
    }
  }

  #drawStanding(): void {
    const last = this.#visits.at(-1)!;
    for (const alike of this.#standing) {
      const { law, first, beyond } = alike;
      for (let i = first; i < beyond; i++) {
        const from = this.#from[i]!;
        const least = this.#leastStanding(law, from);
        const lives = (1 - law.loss) * law.germination * this.#growsOn(law, from);
        const dies = law.loss * law.germination * this.#dying(law, last - from);
        const fails = (1 - law.germination) * this.#failing(law, last - from);
        const u = this.#uniform() * (lives + dies + fails);
        if (u < lives || !(dies + fails > 0)) {
          this.#fate[i] = RIPEN;
          this.#setReady(alike, i, least, Infinity);
        } else this.#fate[i] = u < lives + dies ? DIE : FAIL;
      }
    }
  }

  #setReady({ law }: Alike, i: number, least: number, most: number): void {
    const from = this.#from[i]!;
    // A log can say what cannot be; then the earliest moment stands for all.
    const top = Math.max(least, most);
    const u = this.#uniform();
    this.#ready[i] =
      top < Infinity && law.within(least - from, top - from) < NOTHING
        ? least + toGrid(u * (top - least))
        : from + law.timeWithin(least - from, top - from, u);
  }

  /* ---- limits ---- */

  /** The earliest that a plant can have become ready that left at a visit. */
  #least({ growth, law }: Alike, i: number, visit: number): number {
    const kept = growth.end === 'discarded' ? (this.#visits[visit - 1] ?? -Infinity) : this.#visits[visit]!;
    return Math.max(this.#from[i]! + TICK, this.#cutoffBefore(visit), kept - law.keeps);
  }

  /** The latest: before those that stayed; but who was thrown away had been ready for longer than it keeps. */
  #most({ growth, law }: Alike, beforeOthers: number): number {
    if (growth.end !== 'discarded') return beforeOthers;
    return this.#visits[growth.visit]! - law.keeps - TICK;
  }

  /** The earliest that a plant that stands can have become ready, or becomes it, if it does. */
  #leastStanding(law: GrowthLaw, from: number): number {
    const last = this.#visits.length - 1;
    return Math.max(from + TICK, this.#cutoff[last]!, this.#visits[last]! - law.keeps);
  }

  /** Of those that were left behind at the visit before visit i, the first that is looked at or a later one. */
  #cutoffBefore(i: number): number {
    if (i > this.#firstVisit) return this.#cutoff[i - 1]!;
    const before = this.#firstVisit - 1;
    return before >= 0 && this.#short[before] === 0 ? this.#visits[before]! + TICK : -Infinity;
  }

  /** After a visit: where holes were left nothing ready was; else nothing that was ready before one that went. */
  #pushCutoff(visit: number): void {
    if (this.#short[visit] === 0) {
      this.#cutoff[visit] = this.#visits[visit]! + TICK;
      return;
    }
    let cutoff = this.#cutoffBefore(visit);
    for (const { growth, first, beyond } of this.#left[visit]!) {
      if (growth.end !== 'on') continue;
      for (let i = first; i < beyond; i++) cutoff = Math.max(cutoff, this.#ready[i]!);
    }
    this.#cutoff[visit] = cutoff;
  }

  /** For each visit: when the first of those became ready that left later or stand. */
  #leastAfter(): Float64Array {
    const least = new Float64Array(this.#visits.length);
    let soonest = Infinity;
    if (this.#standingQueued) {
      for (const { first, beyond } of this.#standing) {
        for (let i = first; i < beyond; i++)
          if (this.#fate[i] === RIPEN) soonest = Math.min(soonest, this.#ready[i]!);
      }
    }
    for (let visit = this.#visits.length - 1; visit >= this.#firstVisit; visit--) {
      least[visit] = soonest;
      for (const { first, beyond } of this.#left[visit]!)
        for (let i = first; i < beyond; i++) soonest = Math.min(soonest, this.#ready[i]!);
    }
    return least;
  }

  /* ---- how likely ---- */

  /** How likely it is, but for a factor, that a plant ended as it did if it came in on a day. */
  #weight(i: number, from: number): number {
    const alike = this.#alike[this.#kind[i]!]!;
    const { growth, law, known } = alike;
    const fate = this.#fate[i]!;
    const ready = this.#ready[i]!;
    const last = this.#visits.at(-1)!;
    if (growth.queued && growth.end !== 'dead') {
      if (growth.end !== 'standing' || fate === RIPEN) return ready > from ? law.near(ready - from) : 0;
      return fate === DIE ? this.#dying(law, last - from) : this.#failing(law, last - from);
    }
    let weight = known.get(from);
    if (weight === undefined) {
      weight = growth.end === 'standing' ? this.#standingWeight(law, from) : this.#leavingWeight(alike, from);
      known.set(from, weight);
    }
    return weight;
  }

  #standingWeight(law: GrowthLaw, from: number): number {
    const age = this.#visits.at(-1)! - from;
    const sprouted = (1 - law.loss) * this.#growsOn(law, from) + law.loss * this.#dying(law, age);
    return law.germination * sprouted + (1 - law.germination) * this.#failing(law, age);
  }

  /** Of plants that are not lost, the share that still stands. */
  #growsOn(law: GrowthLaw, from: number): number {
    return law.beyond(this.#leastStanding(law, from) - TICK - from);
  }

  /** Of plants that die, the share that stands by the log at an age. */
  #dying(law: GrowthLaw, age: number): number {
    return this.#unlogged ? 1 : law.dyingBeyond(age);
  }

  /** Likewise of seeds that fail. */
  #failing(law: GrowthLaw, age: number): number {
    return this.#unlogged ? 1 : law.beyond(age);
  }

  #leavingWeight({ growth, law }: Alike, from: number): number {
    const day = this.#visits[growth.visit]!;
    if (day <= from) return 0;
    const before = growth.visit > 0 ? this.#visits[growth.visit - 1]! - from : 0;
    if (growth.end === 'dead') return law.dyingBeyond(before) - law.dyingBeyond(day - from);
    // Thrown away although holes were left at the visit before: nothing that is known of it tells when it came.
    if (growth.end === 'discarded') return 1;
    const least = Math.max(before, day - law.keeps - TICK - from);
    return law.readyBy(day - from) - law.readyBy(Math.max(0, least));
  }
}

/** The places of some among all plants, one after the other. */
function placesOf(some: readonly Alike[]): Uint32Array {
  const places = new Uint32Array(sumOf(some.map(({ growth }) => growth.count)));
  let n = 0;
  for (const { first, beyond } of some) for (let i = first; i < beyond; i++) places[n++] = i;
  return places;
}

/** Share of a law between two limits below which it says nothing about the times between them. */
const NOTHING = 1e-6;

/** Days that are tried in a round for a plant of which only a span is known. */
const ENTRIES = 4;

/** Of a plant that stands since nobody knows when: as long as it can at most, but for one in a hundred. */
function boundedSpan({ from, to }: Span, law: GrowthLaw): Span {
  if (from !== -Infinity) return { from, to };
  const kept = Number.isFinite(law.keeps) ? law.keeps : 0;
  return { from: to - Math.ceil(law.quantile(0.99) + kept), to };
}
