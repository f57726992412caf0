/**
 * How a plant covers its hole in the course of a stay.
 *
 * Expolinear growth (Goudriaan & Monteith 1990, Annals of Botany 66:695-701; the equation from memory): light is caught by leaf
 * area after Beer and Lambert and used at a constant efficiency. With a = extinction x leaf per gram / hole, a plant of w g covers
 * the share 1 - exp(-a w), and L = ln(exp(a w) - 1) rises evenly with the light that falls on the hole. So over a stay in which
 * progress u goes from 0 to 1, L = L0 + c u, and
 *
 *     cover f(u) = 1/(1 + exp(-L))      mass w(u) = ln(1 + exp(L))/a      leaf area index = a w/extinction
 *
 * The curve's shape is fixed by its two ends. Integrals over u are closed forms of the softplus function.
 */

import { inverseSoftplus, logistic, softplus, softplusIntegral } from '../../engine/softplus.js';
import type { Leaf } from './tissue.js';

/** Leaf layers that give off water [m2 per m2 of hole]: the closed canopy of Graamans et al. 2017. */
export const LEAF_LAYERS = 3;

/** Below this climb of L a difference of integrals has fewer digits than the middle of the stretch has. */
export const SHORT_CLIMB = 1e-3;

/** What makes a curve, in the words of the head of this file. */
export interface CurveConstants {
  readonly extinction: number;
  /** a [1/g] */
  readonly perG: number;
  /** L0, and c: from L0 to L1. */
  readonly start: number;
  readonly climb: number;
  /** L at which the leaf layers that count are all there. */
  readonly fullLeaf: number;
}

export class CoverCurve {
  /** Hole [m2]. */
  readonly areaM2: number;
  /** Dry mass of the whole plant at the beginning and at the end [g]. */
  readonly fromG: number;
  readonly toG: number;
  /** Progress at which it shows [0..1); 0 where a plant comes in. */
  readonly showsAt: number;
  readonly #extinction: number;
  /** Rise of `a w` a gram [1/g]. */
  readonly #perG: number;
  /** L at the beginning, its softplus and the integral of that, and how far L climbs while the plant shows. */
  readonly #start: number;
  readonly #startMass: number;
  readonly #startLeaf: number;
  readonly #climb: number;
  /** L at which the leaf layers that count are all there. */
  readonly #fullLeaf: number;

  /**
   * @param areaM2 hole [m2]
   * @param fromG dry mass of the whole plant at the beginning [g], above 0
   * @param toG the same at the end
   * @param showsAt progress at which a seed shows [0..1)
   */
  constructor(leaf: Leaf, areaM2: number, fromG: number, toG: number, showsAt = 0) {
    this.areaM2 = areaM2;
    this.fromG = fromG;
    this.toG = toG;
    this.showsAt = showsAt;
    this.#extinction = leaf.extinction;
    this.#perG = coverPerG(leaf, areaM2);
    this.#startMass = this.#perG * fromG;
    this.#start = inverseSoftplus(this.#startMass);
    this.#startLeaf = softplusIntegral(this.#start);
    this.#climb = inverseSoftplus(this.#perG * toG) - this.#start;
    this.#fullLeaf = inverseSoftplus(LEAF_LAYERS * leaf.extinction);
  }

  /** Share of the light on the hole that falls on leaves at progress `u` [0..1]. */
  cover(u: number): number {
    return this.#isHidden(u) ? 0 : logistic(this.#at(u));
  }

  /** Dry mass of the whole plant at progress `u` [g]. */
  massG(u: number): number {
    if (u >= 1) return this.toG;
    return this.#isHidden(u) ? this.fromG : softplus(this.#at(u)) / this.#perG;
  }

  /** Leaf layers that give off water at progress `u` [m2 per m2 of hole], at most LEAF_LAYERS. */
  leafLayers(u: number): number {
    return this.#isHidden(u) ? 0 : Math.min(LEAF_LAYERS, softplus(this.#at(u)) / this.#extinction);
  }

  /** F(u): the integral of the cover over progress from 0 to `u` [-]. */
  coverTime(u: number): number {
    const rise = this.#rise(u);
    // The mean over the climb times the progress since the seed shows.
    const mean =
      Math.abs(rise) < SHORT_CLIMB
        ? middleOfLogistic(this.#start + rise / 2, rise)
        : (softplus(this.#start + rise) - this.#startMass) / rise;
    return mean * Math.max(0, u - this.showsAt);
  }

  /** G(u): the same of the leaf layers that give off water. */
  leafTime(u: number): number {
    const since = u - this.showsAt;
    if (since <= 0) return 0;
    const rise = this.#rise(u);
    if (rise < SHORT_CLIMB || this.#start >= this.#fullLeaf) return since * this.#meanLeaf(rise);
    const end = this.#start + rise;
    const full = Math.max(0, end - this.#fullLeaf);
    const growing = (softplusIntegral(end - full) - this.#startLeaf) / this.#extinction;
    return (since * (growing + LEAF_LAYERS * full)) / rise;
  }

  /** Mean of the leaf layers over any climb from the start, also a short one or a fall. */
  #meanLeaf(rise: number): number {
    const low = Math.min(this.#start, this.#start + rise);
    const high = Math.max(this.#start, this.#start + rise);
    if (high <= this.#fullLeaf) return meanSoftplus(low, high) / this.#extinction;
    if (low >= this.#fullLeaf) return LEAF_LAYERS;
    const growing = (this.#fullLeaf - low) / (high - low);
    return (growing * meanSoftplus(low, this.#fullLeaf)) / this.#extinction + (1 - growing) * LEAF_LAYERS;
  }

  /** The curve's constants, for whoever works out many stays at once (see models/line/stay-kinds.ts). */
  get constants(): CurveConstants {
    return {
      extinction: this.#extinction,
      perG: this.#perG,
      start: this.#start,
      climb: this.#climb,
      fullLeaf: this.#fullLeaf,
    };
  }

  #isHidden(u: number): boolean {
    return u <= this.showsAt && this.showsAt > 0;
  }

  #rise(u: number): number {
    return u <= this.showsAt ? 0 : (this.#climb * (u - this.showsAt)) / (1 - this.showsAt);
  }

  #at(u: number): number {
    return this.#start + this.#rise(u);
  }
}

/** `a`: how fast cover comes with mass [1/g]. */
export function coverPerG(leaf: Leaf, areaM2: number): number {
  return (leaf.extinction * leaf.m2PerG) / areaM2;
}

/** Mean of the logistic function over a short climb: its middle and the second term of Taylor's series. */
function middleOfLogistic(middle: number, climb: number): number {
  const f = logistic(middle);
  return f + (f * (1 - f) * (1 - 2 * f) * climb * climb) / 24;
}

/** Mean of softplus from `low` to `high`. */
function meanSoftplus(low: number, high: number): number {
  const climb = high - low;
  if (climb >= SHORT_CLIMB) return (softplusIntegral(high) - softplusIntegral(low)) / climb;
  const f = logistic(low + climb / 2);
  return softplus(low + climb / 2) + (f * (1 - f) * climb * climb) / 24;
}
