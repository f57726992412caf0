/**
 * Two things that are known exactly: a saturated line of two stages with exponential times, and how to split
 * an area.
 */

/** What a saturated line of two stages gives in the long run. */
export interface Tandem {
  /** Plants a unit of time that leave the second stage. */
  readonly rate: number;
  /** Mean number of ready plants of the first stage that find no hole in the second. */
  readonly blocked: number;
}

/**
 * A nursery of `c1` holes, never short of seedlings, before `c2` finishing holes; exponential times; a ready
 * plant without a free hole further on keeps its own (blocking after service).
 *
 * Plants that are past their growth in the nursery, n, are a birth-death chain on 0 .. c1 + c2: birth min(c1,
 * c1 + c2 - n) / mean1, death min(n, c2) / mean2. In its balance p(n) birth(n) = p(n + 1) death(n + 1).
 * Derived from the rules.
 */
export function tandem(c1: number, c2: number, mean1: number, mean2: number): Tandem {
  const weights = [1];
  for (let n = 0; n < c1 + c2; n++) {
    weights.push((weights[n]! * Math.min(c1, c1 + c2 - n) * mean2) / (mean1 * Math.min(n + 1, c2)));
  }
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = (figure: (n: number) => number): number =>
    weights.reduce((sum, weight, n) => sum + weight * figure(n), 0) / total;
  return { rate: mean((n) => Math.min(n, c2)) / mean2, blocked: mean((n) => Math.max(0, n - c2)) };
}

/** A stage that shares an area with others. */
export interface SharedStage {
  /** Days that a plant takes there [d]. */
  readonly days: number;
  /** Holes per unit of area. */
  readonly density: number;
  /** Share of plants that leave the stage alive; those that do not hold their hole all the same. */
  readonly survival: number;
}

/** The split of an area that lets most plants through, if plants were a fluid. */
export interface FluidSplit {
  /** Plants a day at the end of the line. */
  readonly rate: number;
  readonly areas: readonly number[];
  readonly holes: readonly number[];
  /** Plants a day at its beginning. */
  readonly sowing: number;
}

/**
 * Every stage is exactly full: its area goes with days / density x (plants that come in for each that comes
 * out at the end). By hand: maximise the rate subject to density x area >= days x plants that come in; all
 * stages bind.
 */
export function fluidSplit(area: number, stages: readonly SharedStage[]): FluidSplit {
  const entering = stages.map(
    (_, i) => 1 / stages.slice(i).reduce((product, { survival }) => product * survival, 1),
  );
  const weights = stages.map(({ days, density }, i) => (entering[i]! * days) / density);
  const rate = area / weights.reduce((sum, weight) => sum + weight, 0);
  const areas = weights.map((weight) => weight * rate);
  return { rate, areas, holes: areas.map((a, i) => a * stages[i]!.density), sowing: rate * entering[0]! };
}
