/**
 * What can have become of a plant by its age in a stage, tabulated over a lattice of ages.
 *
 * Visits lie on days, so the same few ages occur over and over, in every batch. Each is looked up once for
 * each trial of the parameters.
 */

import type { FittedLaw } from '../../../engine/laws.js';

/** What is tried. */
export interface GrowthParameters {
  readonly law: FittedLaw;
  /** Probability that a plant dies in the stage [0..1] */
  readonly loss: number;
  /** Probability that a seed sprouts [0..1]; 1 in every stage but the first */
  readonly germination: number;
  /** Chance that what is dead or failed is cleared at a visit [0..1]: see clearings.ts */
  readonly cleared: number;
}

/** Ages are whole multiples of the lattice's unit; at age 0 and before nothing has happened. */
export class LifeTable {
  readonly #unit: number;
  readonly #below: Float64Array;
  readonly #beyond: Float64Array;
  readonly #lostBy: Float64Array;
  #law: FittedLaw | null = null;
  /** Shares of those that get ready, that die, and that never sprout. */
  #ready = 1;
  #lost = 0;
  #failed = 0;

  /** @param unit of the lattice [d] @param longest age [units] */
  constructor(unit: number, longest: number) {
    this.#unit = unit;
    this.#below = new Float64Array(longest + 1);
    this.#beyond = new Float64Array(longest + 1);
    this.#lostBy = new Float64Array(longest + 1);
  }

  set({ law, loss, germination }: Omit<GrowthParameters, 'cleared'>): void {
    this.#law = law;
    this.#below.fill(Number.NaN);
    this.#lostBy.fill(Number.NaN);
    this.#ready = germination * (1 - loss);
    this.#lost = germination * loss;
    this.#failed = 1 - germination;
  }

  /** Probability of being ready by `age`. */
  readyBy(age: number): number {
    if (age <= 0) return 0;
    this.#know(age);
    return this.#ready * this.#below[age]!;
  }

  /** As `readyBy`, for an age between the points of the lattice too: along the straight line. */
  readyByAbout(age: number): number {
    const whole = Math.floor(age);
    const first = this.readyBy(whole);
    return age === whole ? first : first + (age - whole) * (this.readyBy(whole + 1) - first);
  }

  /** Probability of getting ready, but after `age`: right where it is small. */
  readyAfter(age: number): number {
    if (age <= 0) return this.#ready;
    this.#know(age);
    return this.#ready * this.#beyond[age]!;
  }

  /** Probability of getting ready at an age in (from, to]. */
  readyBetween(from: number, to: number): number {
    return this.#ready * this.#between(from, to);
  }

  /** Probability of dying at an age in (from, to]. */
  diedBetween(from: number, to: number): number {
    return this.#lost === 0 ? 0 : this.#lost * (this.#lostByAt(to) - this.#lostByAt(from));
  }

  /** Probability of proving a failed seed at an age in (from, to]. */
  failedBetween(from: number, to: number): number {
    return this.#failed * this.#between(from, to);
  }

  /**
   * Probability of being alive at age `seen` and not having been ready by age `ready`, which is at most
   * `seen`.
   */
  standing(ready: number, seen: number): number {
    const lost = this.#lost === 0 ? 0 : this.#lost * (1 - this.#lostByAt(seen));
    const failed = this.#failed === 0 ? 0 : this.#failed * this.#between(seen, Infinity);
    return this.readyAfter(ready) + lost + failed;
  }

  /** As `standing`, for a `ready` between the points of the lattice too. */
  standingAbout(ready: number, seen: number): number {
    const whole = Math.floor(ready);
    const first = this.standing(whole, seen);
    return ready === whole ? first : first + (ready - whole) * (this.standing(whole + 1, seen) - first);
  }

  #between(from: number, to: number): number {
    if (from > 0) this.#know(from);
    if (to > 0 && to < Infinity) this.#know(to);
    const start = from > 0 ? this.#below[from]! : 0;
    // The difference of the two smaller numbers is the one that keeps its digits.
    if (start < 0.5) return (to === Infinity ? 1 : to > 0 ? this.#below[to]! : 0) - start;
    const after = this.#beyond[from]!;
    return to === Infinity ? after : after - this.#beyond[to]!;
  }

  /** Look the law up at an age above 0. */
  #know(age: number): void {
    if (!Number.isNaN(this.#below[age]!)) return;
    this.#below[age] = this.#law!.share(age * this.#unit);
    this.#beyond[age] = this.#law!.beyond(age * this.#unit);
  }

  #lostByAt(age: number): number {
    if (age <= 0) return 0;
    let lost = this.#lostBy[age]!;
    if (Number.isNaN(lost)) {
      lost = this.#law!.endedBy(age * this.#unit);
      this.#lostBy[age] = lost;
    }
    return lost;
  }
}
