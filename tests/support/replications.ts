/**
 * Simulated figures against formulas: the mean over independent seasons must lie within WITHIN standard errors of
 * what the formula says.
 *
 * Why 4: with 32 seasons a right simulator misses by 4 standard errors once in 2 700 checks (Student's t with 31
 * degrees of freedom), so some hundred checks with fixed seeds pass together and a failure is a finding. The
 * standard error is itself asserted to be small: a wide one would let anything through.
 */

import { expect } from 'vitest';
import { fillUniform, stream } from '../../sim/engine/random.js';
import { Moments } from '../../sim/engine/tally.js';
import { type EventObserver, Line } from '../../sim/models/line/line.js';
import type { Plan } from '../../sim/models/plan.js';

/** Standard errors that a mean may be off. */
export const WITHIN = 4;
/** Seasons a check is made of, unless it says otherwise. */
export const SEASONS = 32;
const SEED = 20270104;

/** What a run of one plan gave between `from` and the end of the season. */
export interface Window {
  /** Length of the window [d]. */
  readonly days: number;
  readonly counts: Float64Array;
  readonly ledger: Float64Array;
}

/** Mean and spread of `figure` over independent seasons. */
export function replicate(figure: (season: number) => number, seasons = SEASONS): Moments {
  const moments = new Moments();
  for (let season = 0; season < seasons; season++) moments.add(figure(season));
  return moments;
}

/** Means and spreads of several figures of the same seasons. */
export function replicateAll(
  count: number,
  figures: (season: number) => readonly number[],
  seasons = SEASONS,
): Moments[] {
  const moments = Array.from({ length: count }, () => new Moments());
  for (let season = 0; season < seasons; season++) {
    const values = figures(season);
    moments.forEach((moment, i) => {
      moment.add(values[i]!);
    });
  }
  return moments;
}

/**
 * Assert that the mean of `sample` is `theory`.
 * @param sample at least 16 independent figures
 * @param theory value of the formula
 * @param resolution largest standard error for which the check means something, relative to `theory`
 * @param bias bound on what the figure may be off for a reason that the test states
 */
export function expectMean(sample: Moments, theory: number, resolution: number, bias = 0): void {
  expect(sample.count).toBeGreaterThanOrEqual(16);
  expect(sample.standardError / Math.abs(theory)).toBeLessThan(resolution);
  // Rounding: figures without any spread are compared to 1e-9.
  const allowed = WITHIN * sample.standardError + bias + 1e-9 * Math.abs(theory);
  const off = sample.mean - theory;
  expect(Math.abs(off), `${sample.mean} for ${theory}, s.e. ${sample.standardError}`).toBeLessThanOrEqual(
    allowed,
  );
}

/** Run the same plan with the same luck for `warmup` and for all its weeks: the difference is what came between. */
export class Steady {
  readonly #short: Line;
  readonly #long: Line;
  readonly #days: number;
  readonly #counts: Float64Array;
  readonly #ledger: Float64Array;

  constructor(plan: Plan, warmupWeeks: number) {
    this.#short = new Line({ ...plan, weeks: warmupWeeks });
    this.#long = new Line(plan);
    this.#days = 7 * (plan.weeks - warmupWeeks);
    const empty = this.#short.run(SEED, 0);
    this.#counts = new Float64Array(empty.counts.length);
    this.#ledger = new Float64Array(empty.ledger.length);
  }

  run(season: number): Window {
    const before = this.#short.run(SEED, season);
    const after = this.#long.run(SEED, season);
    for (let i = 0; i < this.#counts.length; i++) this.#counts[i] = after.counts[i]! - before.counts[i]!;
    for (let i = 0; i < this.#ledger.length; i++) this.#ledger[i] = after.ledger[i]! - before.ledger[i]!;
    return { days: this.#days, counts: this.#counts, ledger: this.#ledger };
  }
}

/** Due times of single seeds as a Poisson process. @param rate seeds a day */
export function poissonTimes(rate: number, days: number, season: number): number[] {
  const source = stream(SEED, season, ['arrivals']);
  const uniforms = new Float64Array(1024);
  const times: number[] = [];
  for (let t = 0; ; ) {
    fillUniform(source, uniforms, uniforms.length);
    for (const u of uniforms) {
      t -= Math.log1p(-u) / rate;
      if (t >= days) return times;
      times.push(t);
    }
  }
}

/** A season of `plan` with the seed of these checks. */
export function runSeason(line: Line, season: number, recorder?: EventObserver) {
  return line.run(SEED, season, recorder ?? null);
}
