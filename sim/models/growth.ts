/**
 * How long plants need and what becomes of them: the draws of one crop in one stage.
 *
 * The k-th plant to enter takes the k-th draws, whatever the plan is. Time, loss, moment of loss and sprouting come
 * from four streams, so "always all four, needed or not" holds without drawing what is not needed: nobody can tell
 * whether a stream that is not read was advanced.
 */

import { TICK, toGrid } from '../engine/clock.js';
import { gammaLaw } from '../engine/gamma-law.js';
import {
  exponentialLaw,
  fixedLaw,
  type Law,
  lognormalLaw,
  observedLaw,
  triangularLaw,
  weibullLaw,
} from '../engine/laws.js';
import { BlockStream, type StreamKey, streamKey } from '../engine/random.js';
import type { Growing, GrowthTime } from './plan.js';

/** Laws that were made already: some take a millisecond, and a study makes many lines of one crop. */
const known = new WeakMap<GrowthTime, Law>();

/** A double tells no two times apart that differ by less than about this share. */
const NO_SPREAD = 1e-17;

/** The distribution of a growth time. Without a spread that can be told from none every shape is fixed. */
export function lawOf(time: GrowthTime): Law {
  let law = known.get(time);
  if (law === undefined) {
    law = makeLaw(time);
    known.set(time, law);
  }
  return law;
}

function makeLaw(time: GrowthTime): Law {
  if (time.shape === 'observed') return observedLaw(time.times);
  if (time.shape === 'exponential') return exponentialLaw(time.days);
  if (time.shape === 'fixed' || time.spread < NO_SPREAD) return fixedLaw(time.days);
  switch (time.shape) {
    case 'lognormal':
      return lognormalLaw(time.days, time.spread);
    case 'gamma':
      return gammaLaw(time.days, time.spread);
    case 'weibull':
      return weibullLaw(time.days, time.spread);
    case 'triangular':
      return triangularLaw(time.days, time.spread);
  }
}

/** Draws are made in blocks, for speed. The first is small and each next one twice as large: small lines need few. */
const FIRST_BLOCK = 32;
const LARGEST_BLOCK = 128;

/** The fates of the plants of one crop in one stage, in the order in which they enter it. */
export interface Draws {
  /** Time that the plant needs [d, on the grid unless its days change by date, at least a tick]: index with `take()`. */
  readonly times: Float64Array;
  /** Moment of loss as a share of the time; 2 if the plant is not lost. */
  readonly moments: Float64Array;
  /** 1 if the seed sprouts. */
  readonly sprouts: Uint8Array;
  /** Start the draws of a season. */
  start(seed: number, season: number): void;
  /** Take the next plant's draws. @returns their index in `times`, `moments` and `sprouts`, good until the next call */
  take(): number;
}

/** Draws from the plan's own distributions. */
export class RandomDraws implements Draws {
  readonly times = new Float64Array(LARGEST_BLOCK);
  readonly moments = new Float64Array(LARGEST_BLOCK);
  readonly sprouts = new Uint8Array(LARGEST_BLOCK);

  readonly #law: Law;
  readonly #varies: boolean;
  /** What takes longer by date is put on the grid when that is known: once. */
  readonly #onGrid: boolean;
  readonly #loss: number;
  readonly #germination: number;
  readonly #keys: Readonly<Record<'time' | 'loss' | 'moment' | 'sprouting', StreamKey>>;
  readonly #uniforms = new Float64Array(LARGEST_BLOCK);
  #next = 0;
  #size = 0;
  readonly #timeStream = new BlockStream();
  readonly #lossStream = new BlockStream();
  readonly #momentStream = new BlockStream();
  readonly #sproutStream = new BlockStream();

  /**
   * @param growing what the crop does in the stage
   * @param germination probability that a seed sprouts; 1 in every stage but the first
   * @param name names of crop and stage: the address of the streams
   */
  constructor(growing: Growing, germination: number, name: readonly string[]) {
    this.#law = lawOf(growing.time);
    this.#varies =
      growing.time.shape !== 'fixed' && !(growing.time.shape !== 'observed' && growing.time.spread === 0);
    this.#onGrid = growing.spells === undefined;
    this.#loss = growing.loss;
    this.#germination = germination;
    this.#keys = {
      time: streamKey([...name, 'time']),
      loss: streamKey([...name, 'loss']),
      moment: streamKey([...name, 'moment']),
      sprouting: streamKey([...name, 'sprouting']),
    };
    this.moments.fill(2);
    this.sprouts.fill(1);
  }

  start(seed: number, season: number): void {
    this.#next = 0;
    this.#size = 0;
    if (this.#varies) this.#timeStream.start(seed, season, this.#keys.time);
    if (this.#loss > 0) {
      this.#lossStream.start(seed, season, this.#keys.loss);
      this.#momentStream.start(seed, season, this.#keys.moment);
    }
    if (this.#germination < 1) this.#sproutStream.start(seed, season, this.#keys.sprouting);
  }

  take(): number {
    if (this.#next === this.#size) this.#draw();
    return this.#next++;
  }

  #draw(): void {
    const n = this.#size === 0 ? FIRST_BLOCK : Math.min(2 * this.#size, LARGEST_BLOCK);
    this.#size = n;
    this.#next = 0;
    const { times, moments, sprouts } = this;
    const uniforms = this.#uniforms;
    if (this.#varies) this.#timeStream.fill(times, n);
    this.#law.fill(times, n);
    if (this.#onGrid) for (let i = 0; i < n; i++) times[i] = Math.max(TICK, toGrid(times[i]!));
    else for (let i = 0; i < n; i++) times[i] = Math.max(TICK, times[i]!);
    if (this.#loss > 0) {
      this.#lossStream.fill(uniforms, n);
      this.#momentStream.fill(moments, n);
      for (let i = 0; i < n; i++) if (!(uniforms[i]! < this.#loss)) moments[i] = 2;
    }
    if (this.#germination < 1) {
      this.#sproutStream.fill(uniforms, n);
      for (let i = 0; i < n; i++) sprouts[i] = uniforms[i]! < this.#germination ? 1 : 0;
    }
  }
}
