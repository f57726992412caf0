/**
 * Kaplan and Meier's estimate of how many have not met their end by a time, some of which were lost sight of
 * before.
 *
 * Kaplan, E. L. and Meier, P. (1958), Journal of the American Statistical Association 53:457-481; standard
 * error by Greenwood, M. (1926); interval on the scale of ln(-ln S), which stays between 0 and 1 (formulas
 * from memory, held against published results by the tests).
 */

import { power } from '../../../engine/power.js';
import { Z95 } from './profile.js';

/** Individuals with the same time. */
export interface FollowUp {
  /** Time at which they met their end, or were last seen. */
  readonly time: number;
  readonly count: number;
  /** false if they were only lost sight of */
  readonly ended: boolean;
}

/** The curve from one end to the next. */
export interface CurveStep {
  readonly time: number;
  readonly atRisk: number;
  readonly ended: number;
  /** Share that has not met its end by this time [0..1] */
  readonly share: number;
  /** Standard error of the share; NaN once nobody is left */
  readonly error: number;
  /** 95 % interval of the share; NaN once nobody is left */
  readonly low: number;
  readonly high: number;
}

export function kaplanMeier(followed: readonly FollowUp[]): CurveStep[] {
  const ordered = [...followed].sort((a, b) => a.time - b.time);
  let atRisk = ordered.reduce((sum, { count }) => sum + count, 0);
  let share = 1;
  let greenwood = 0;
  const steps: CurveStep[] = [];
  for (let i = 0; i < ordered.length; ) {
    const { time } = ordered[i]!;
    let ended = 0;
    let gone = 0;
    for (; i < ordered.length && ordered[i]!.time === time; i++) {
      gone += ordered[i]!.count;
      if (ordered[i]!.ended) ended += ordered[i]!.count;
    }
    if (ended > 0) {
      share *= (atRisk - ended) / atRisk;
      greenwood += ended / (atRisk * (atRisk - ended));
      steps.push({ time, atRisk, ended, share, ...errors(share, greenwood) });
    }
    // Those lost sight of at this time were still at risk of the ends at it.
    atRisk -= gone;
  }
  return steps;
}

function errors(share: number, greenwood: number): Pick<CurveStep, 'error' | 'low' | 'high'> {
  if (share === 0) return { error: Number.NaN, low: Number.NaN, high: Number.NaN };
  const wide = (Z95 * Math.sqrt(greenwood)) / Math.log(share);
  return {
    error: share * Math.sqrt(greenwood),
    low: power(share, Math.exp(-wide)),
    high: power(share, Math.exp(wide)),
  };
}

/**
 * Time by which half have met their end, with its 95 % interval; null where the curve does not come down so
 * far.
 */
export interface Median {
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** The interval holds the times at which the interval of the share holds one half. */
export function medianOf(steps: readonly CurveStep[]): Median {
  // Once nobody is left, all three are 0.
  const first = (of: (step: CurveStep) => number): number | null =>
    steps.find((step) => step.share === 0 || of(step) <= 0.5)?.time ?? null;
  return {
    value: first(({ share }) => share),
    low: first(({ low }) => low),
    high: first(({ high }) => high),
  };
}
