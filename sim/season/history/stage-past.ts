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
import type { Uniform } from '../../engine/random.js';
import type { GrowthLaw } from './growth-law.js';
import type { Growth, StageGrowths } from './growths.js';
import { initialCutoffs } from './initial-cutoffs.js';
import type { Span } from './logged-season.js';
import { HARDLY } from './overdue.js';
import type { ShortVisits } from './short-visits.js';

/** What a plant that stands is about to do. */
export type Fate = 'ripen' | 'die' | 'fail';

/** A growth, with what is not known of it. */
interface LatentGrowth {
  readonly growth: Growth;
  readonly law: GrowthLaw;
  /** Day on which it came in [d], and when it can have. */
  from: number;
  since: Span | null;
  /** When it became, or becomes, ready [d]; of use only if it is tied, and not for a plant that will die or fail. */
  ready: number;
  /** Of plants that stand. */
  fate: Fate;
  /** How likely its end is if it came in on a day; kept where it depends on nothing else. */
  readonly known: Map<number, number>;
}

/** Plants that cannot be told apart but by when they came in. */
interface Group {
  readonly members: LatentGrowth[];
  mixed: boolean;
}

export class StagePast {
  readonly #visits: readonly number[];
  readonly #short: ShortVisits;
  readonly #firstVisit: number;
  readonly #uniform: Uniform;
  readonly #groups: Group[] = [];
  readonly #standing: LatentGrowth[] = [];
  readonly #gone: LatentGrowth[] = [];
  /** Those of which perhaps only a span of days is known in which they came in, and their like. */
  readonly #undated: LatentGrowth[];
  /** Tied plants that left, by the place of the visit. */
  readonly #left: LatentGrowth[][];
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
    const groups = new Map<string, Group>();
    for (const growth of growths) {
      const key = `${growth.batch} ${growth.phase}`;
      const group = groups.get(key) ?? { members: [], mixed: false };
      groups.set(key, group);
      const { from } = growth;
      const law = lawOf(growth);
      const since = growth.since === undefined ? null : boundedSpan(growth.since, law);
      const unknown: LatentGrowth = {
        growth,
        law,
        from,
        since,
        ready: from,
        fate: 'ripen',
        known: new Map(),
      };
      if (group.members.length > 0 && group.members[0]!.from !== from) group.mixed = true;
      group.members.push(unknown);
      if (growth.end === 'standing') this.#standing.push(unknown);
      else {
        this.#gone.push(unknown);
        if (growth.queued) this.#left[growth.visit]!.push(unknown);
      }
    }
    this.#groups = [...groups.values()].filter(({ mixed }) => mixed);
    this.#undated = [...groups.values()]
      .filter(({ members }) => members.some(({ since }) => since !== null))
      .flatMap(({ members }) => members);
    this.#standingQueued = short[visits.length - 1] === 1 && this.#standing.length > 0;
    this.#begin();
  }

  /** Whether there is anything that takes rounds to settle. */
  get settles(): boolean {
    return this.#groups.length > 0 || this.#undated.length > 0 || this.#standingQueued;
  }

  /** One round: every bit is drawn anew. */
  round(): void {
    for (const { members } of this.#groups) for (let i = 0; i < members.length; i++) this.#exchange(members);
    for (const unknown of this.#undated) this.#drawEntry(unknown);
    this.#drawReady();
    // Where they bear on nothing else, it is soon enough when they are told.
    if (this.#standingQueued) this.#drawStanding();
  }

  /**
   * What the plants that stand are about to do, in the order of the growths.
   * @param hear is given the growth, what it is about to do and when [d] (a time up to the last visit: it is ready),
   * whether by the plan's laws hardly one such plant would still stand there and grow, and when it came in [d]
   */
  tell(hear: (growth: Growth, fate: Fate, at: number, overdue: boolean, from: number) => void): void {
    const last = this.#visits.at(-1)!;
    if (!this.#standingQueued) this.#drawStanding();
    for (const unknown of this.#standing) {
      const { growth, law, from, fate, ready } = unknown;
      let at = ready;
      const age = last - from;
      if (fate === 'die')
        at = this.#isOver(law.dyingBeyond(age)) ? last + TICK : from + law.deathBeyond(age, this.#uniform);
      if (fate === 'fail')
        at = this.#isOver(law.beyond(age))
          ? last + TICK
          : from + law.timeWithin(age + TICK, Infinity, this.#uniform());
      hear(growth, fate, at, this.#growsOn(unknown, from) < HARDLY, from);
    }
  }

  /**
   * What those did that left, in the order of the growths.
   * @param hear is given the growth, whether it became ready (else it died or failed), when [d], and when it came in [d]
   */
  tellLeft(hear: (growth: Growth, ready: boolean, at: number, from: number) => void): void {
    for (const unknown of this.#gone) {
      const { growth, law, from } = unknown;
      const visit = this.#visits[growth.visit]!;
      const most = this.#most(unknown, visit);
      if (growth.end !== 'dead') {
        // Where it bears on nothing else, it is soon enough now.
        if (!growth.queued) this.#setReady(unknown, this.#least(unknown, growth.visit), most);
        // What is said to have been thrown away and cannot have been ready for so long, was dead.
        if (growth.end === 'on' || unknown.ready <= most) {
          hear(growth, true, unknown.ready, from);
          continue;
        }
      }
      const before = Math.max(0, (this.#visits[growth.visit - 1] ?? from) - from);
      hear(growth, false, from + law.deathBetween(before, visit - from, this.#uniform), from);
    }
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
  #exchange(members: readonly LatentGrowth[]): void {
    const a = members[Math.floor(this.#uniform() * members.length)]!;
    const b = members[Math.floor(this.#uniform() * members.length)]!;
    if (a.from === b.from) return;
    const now = this.#weight(a, a.from) * this.#weight(b, b.from);
    const then = this.#weight(a, b.from) * this.#weight(b, a.from);
    if (!(then > 0) || this.#uniform() * now >= then) return;
    const { from, since } = a;
    a.from = b.from;
    a.since = b.since;
    b.from = from;
    b.since = since;
  }

  /** Let a plant have come in on another day of its span. */
  #drawEntry(unknown: LatentGrowth): void {
    const { since } = unknown;
    if (since === null) return;
    for (let i = 0; i < ENTRIES; i++) {
      const other = since.from + Math.floor(this.#uniform() * (since.to - since.from + 1));
      const then = this.#weight(unknown, other);
      if (then > 0 && this.#uniform() * this.#weight(unknown, unknown.from) < then) unknown.from = other;
    }
  }

  /** When those became ready that left: before those that stayed. */
  #drawReady(): void {
    const until = this.#leastAfter();
    this.#drawLeft((visit) => Math.min(this.#visits[visit]!, until[visit]!));
  }

  /** Visit by visit: when those became ready that left then, after those that left before. @param most where holes were short */
  #drawLeft(most: (visit: number) => number): void {
    for (let i = this.#firstVisit; i < this.#visits.length; i++) {
      const latest = this.#short[i] === 1 ? most(i) : this.#visits[i]!;
      for (const unknown of this.#left[i]!) {
        this.#setReady(unknown, this.#least(unknown, i), this.#most(unknown, latest));
      }
      this.#pushCutoff(i);
    }
  }

  #drawStanding(): void {
    const last = this.#visits.at(-1)!;
    for (const unknown of this.#standing) {
      const { law, from } = unknown;
      const least = this.#leastStanding(unknown, from);
      const lives = (1 - law.loss) * law.germination * this.#growsOn(unknown, from);
      const dies = law.loss * law.germination * this.#dying(law, last - from);
      const fails = (1 - law.germination) * this.#failing(law, last - from);
      const u = this.#uniform() * (lives + dies + fails);
      if (u < lives || !(dies + fails > 0)) {
        unknown.fate = 'ripen';
        this.#setReady(unknown, least, Infinity);
      } else unknown.fate = u < lives + dies ? 'die' : 'fail';
    }
  }

  #setReady(unknown: LatentGrowth, least: number, most: number): void {
    const { law, from } = unknown;
    // A log can say what cannot be; then the earliest moment stands for all.
    const top = Math.max(least, most);
    const u = this.#uniform();
    unknown.ready =
      top < Infinity && law.within(least - from, top - from) < NOTHING
        ? least + toGrid(u * (top - least))
        : from + law.timeWithin(least - from, top - from, u);
  }

  /* ---- limits ---- */

  /** The earliest that a plant can have become ready that left at visit i. */
  #least({ growth, law, from }: LatentGrowth, i: number): number {
    const kept = growth.end === 'discarded' ? (this.#visits[i - 1] ?? -Infinity) : this.#visits[i]!;
    return Math.max(from + TICK, this.#cutoffBefore(i), kept - law.keeps);
  }

  /** The latest: before those that stayed; but who was thrown away had been ready for longer than it keeps. */
  #most({ growth, law }: LatentGrowth, beforeOthers: number): number {
    if (growth.end !== 'discarded') return beforeOthers;
    return this.#visits[growth.visit]! - law.keeps - TICK;
  }

  /** The earliest that a plant that stands can have become ready, or becomes it, if it does. */
  #leastStanding({ law }: LatentGrowth, from: number): number {
    const last = this.#visits.length - 1;
    return Math.max(from + TICK, this.#cutoff[last]!, this.#visits[last]! - law.keeps);
  }

  /** Of those that were left behind at the visit before visit i, the first that is looked at or a later one. */
  #cutoffBefore(i: number): number {
    if (i > this.#firstVisit) return this.#cutoff[i - 1]!;
    const before = this.#firstVisit - 1;
    return before >= 0 && this.#short[before] === 0 ? this.#visits[before]! + TICK : -Infinity;
  }

  /** After visit i: where holes were left nothing ready was; else nothing that was ready before one that went. */
  #pushCutoff(i: number): void {
    if (this.#short[i] === 0) {
      this.#cutoff[i] = this.#visits[i]! + TICK;
      return;
    }
    let cutoff = this.#cutoffBefore(i);
    for (const { growth, ready } of this.#left[i]!) if (growth.end === 'on') cutoff = Math.max(cutoff, ready);
    this.#cutoff[i] = cutoff;
  }

  /** For each visit: when the first of those became ready that left later or stand. */
  #leastAfter(): Float64Array {
    const least = new Float64Array(this.#visits.length);
    let first = Infinity;
    if (this.#standingQueued) {
      for (const { fate, ready } of this.#standing) if (fate === 'ripen') first = Math.min(first, ready);
    }
    for (let i = this.#visits.length - 1; i >= this.#firstVisit; i--) {
      least[i] = first;
      for (const { ready } of this.#left[i]!) first = Math.min(first, ready);
    }
    return least;
  }

  /* ---- how likely ---- */

  /** How likely it is, but for a factor, that a plant ended as it did if it came in on a day. */
  #weight(unknown: LatentGrowth, from: number): number {
    const { growth, law, ready, fate } = unknown;
    const last = this.#visits.at(-1)!;
    if (growth.queued && growth.end !== 'dead') {
      if (growth.end !== 'standing' || fate === 'ripen') return ready > from ? law.near(ready - from) : 0;
      return fate === 'die' ? this.#dying(law, last - from) : this.#failing(law, last - from);
    }
    let weight = unknown.known.get(from);
    if (weight === undefined) {
      weight =
        growth.end === 'standing' ? this.#standingWeight(unknown, from) : this.#leavingWeight(unknown, from);
      unknown.known.set(from, weight);
    }
    return weight;
  }

  #standingWeight(unknown: LatentGrowth, from: number): number {
    const { law } = unknown;
    const age = this.#visits.at(-1)! - from;
    const sprouted = (1 - law.loss) * this.#growsOn(unknown, from) + law.loss * this.#dying(law, age);
    return law.germination * sprouted + (1 - law.germination) * this.#failing(law, age);
  }

  /** Of plants that are not lost, the share that still stands. */
  #growsOn(unknown: LatentGrowth, from: number): number {
    return unknown.law.beyond(this.#leastStanding(unknown, from) - TICK - from);
  }

  /** Of plants that die, the share that stands by the log at an age. */
  #dying(law: GrowthLaw, age: number): number {
    return this.#unlogged ? 1 : law.dyingBeyond(age);
  }

  /** Likewise of seeds that fail. */
  #failing(law: GrowthLaw, age: number): number {
    return this.#unlogged ? 1 : law.beyond(age);
  }

  #leavingWeight({ growth, law }: LatentGrowth, from: number): number {
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
