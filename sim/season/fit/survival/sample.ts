/**
 * A sample of independent times that are known exactly or only to lie in an interval, and the law that fits
 * it best.
 */

import type { FittedLaw } from '../../../engine/laws.js';
import { type FittedShape, fittedLaw } from './laws.js';
import { type MaximiseOptions, maximise } from './maximise.js';

/**
 * Times that lie in (from, to] [d]: `from` 0 if it was not seen before, `to` Infinity if not yet; alike if
 * known exactly.
 */
export interface Censored {
  readonly from: number;
  readonly to: number;
  readonly count: number;
}

/**
 * Bounds of ln(mean) and ln(CV): from an hour to ten years, from one percent of spread to the most that a
 * scenario may say.
 */
export const LAW_BOUNDS: Omit<MaximiseOptions, 'start'> = {
  low: [Math.log(0.04), Math.log(0.01)],
  high: [Math.log(3650), Math.log(2)],
};

/** ln of the likelihood; of the density where a time is known exactly. */
export function sampleLikelihood(law: FittedLaw, sample: readonly Censored[]): number {
  let sum = 0;
  for (const { from, to, count } of sample) {
    sum += count * (from === to ? law.logDensity(to) : Math.log(Math.max(1e-300, chanceIn(law, from, to))));
  }
  return sum;
}

function chanceIn(law: FittedLaw, from: number, to: number): number {
  const before = from > 0 ? law.share(from) : 0;
  if (before < 0.5) return (to === Infinity ? 1 : law.share(to)) - before;
  return law.beyond(from) - (to === Infinity ? 0 : law.beyond(to));
}

export interface SampleFit {
  /** [d] */
  readonly mean: number;
  /** Standard deviation over mean. */
  readonly cv: number;
  /** ln of the likelihood. */
  readonly value: number;
}

/**
 * The law of a shape that fits a sample best (maximum likelihood).
 * @param sample with at least one time that is known from above
 */
export function fitSample(shape: FittedShape, sample: readonly Censored[]): SampleFit {
  const { mean, cv } = moments(sample);
  const { at, value } = maximise(
    ([mu, sigma]) => sampleLikelihood(fittedLaw(shape, Math.exp(mu!), Math.exp(sigma!)), sample),
    { start: [Math.log(mean), Math.log(cv)], ...LAW_BOUNDS, enough: 1e-13, step: 1e-4 },
  );
  return { mean: Math.exp(at[0]!), cv: Math.exp(at[1]!), value };
}

/** Mean and CV with each time in the middle of its interval: where to begin. */
function moments(sample: readonly Censored[]): { mean: number; cv: number } {
  let n = 0;
  let sum = 0;
  let squares = 0;
  for (const { from, to, count } of sample) {
    const time = to === Infinity ? from : (from + to) / 2;
    n += count;
    sum += count * time;
    squares += count * time * time;
  }
  const mean = sum / n;
  const variance = Math.max(0, squares / n - mean * mean);
  return { mean, cv: Math.min(1.5, Math.max(0.05, Math.sqrt(variance) / mean)) };
}
