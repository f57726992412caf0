/**
 * The laws of growth times as survival functions, matched to a mean and a coefficient of variation (CV) as in
 * engine/quantiles.ts; and when a plant that is lost dies.
 *
 * A lost plant dies at a uniform moment U of the time T that it would have needed. So P(U T <= t) = P(T <= t)
 * + t E[1/T; T > t], which has a closed form for each of these laws: the law of T, weighted by 1/T, is of the
 * same family (lognormal, gamma) or an incomplete gamma function (Weibull).
 */

import { lnGamma, regularisedGamma } from '../../../engine/gamma.js';
import { weibullLaw } from '../../../engine/quantiles.js';
import { normalBelow, normalBeyond } from './normal-probability.js';
import { upperGamma } from './upper-gamma.js';

/** Shapes that are fitted. The exponential law is the Weibull law with a CV of 1. */
export const FITTED_SHAPES = ['lognormal', 'gamma', 'weibull'] as const;

export type FittedShape = (typeof FITTED_SHAPES)[number];

/** A distribution of positive times. Every function takes a time above 0 [d]. */
export interface SurvivalLaw {
  /** P(T <= t) */
  below(t: number): number;
  /** P(T > t), right where it is small. */
  beyond(t: number): number;
  /** ln of the density [1/d] */
  logDensity(t: number): number;
  /** P(U T <= t): the chance of a plant that is lost of being dead by t */
  lostBy(t: number): number;
}

/**
 * @param mean above 0 [d]
 * @param cv standard deviation over mean, above 0
 */
export function survivalLaw(shape: FittedShape, mean: number, cv: number): SurvivalLaw {
  switch (shape) {
    case 'lognormal':
      return lognormal(mean, cv);
    case 'gamma':
      return gamma(mean, cv);
    case 'weibull':
      return weibull(mean, cv);
  }
}

const HALF_LN_2PI = 0.9189385332046727;

function lognormal(mean: number, cv: number): SurvivalLaw {
  const variance = Math.log1p(cv * cv);
  const sigma = Math.sqrt(variance);
  const mu = Math.log(mean) - variance / 2;
  const z = (t: number): number => (Math.log(t) - mu) / sigma;
  // E[1/T] = e^(-mu + sigma^2/2); weighted by 1/T, ln T is normal about mu - sigma^2.
  const inverse = Math.exp(variance / 2 - mu);
  return {
    below: (t) => normalBelow(z(t)),
    beyond: (t) => normalBeyond(z(t)),
    logDensity: (t) => -0.5 * z(t) ** 2 - HALF_LN_2PI - Math.log(sigma * t),
    lostBy: (t) => normalBelow(z(t)) + t * inverse * normalBeyond(z(t) + sigma),
  };
}

function gamma(mean: number, cv: number): SurvivalLaw {
  const shape = 1 / (cv * cv);
  const scale = mean / shape;
  const lnFront = lnGamma(shape);
  return {
    below: (t) => regularisedGamma(shape, t / scale),
    beyond: (t) => regularisedGamma(shape, t / scale, true),
    logDensity: (t) => (shape - 1) * Math.log(t / scale) - t / scale - lnFront - Math.log(scale),
    lostBy: (t) => {
      const x = t / scale;
      // Gamma(shape - 1, x) / Gamma(shape); for narrow laws both overflow, their quotient does not.
      const inverse =
        shape > 1.5
          ? regularisedGamma(shape - 1, x, true) / (shape - 1)
          : upperGamma(shape - 1, x) / Math.exp(lnFront);
      return regularisedGamma(shape, x) + x * inverse;
    },
  };
}

function weibull(mean: number, cv: number): SurvivalLaw {
  const { shape, scale } = weibullParameters(mean, cv);
  const x = (t: number): number => (t / scale) ** shape;
  return {
    below: (t) => -Math.expm1(-x(t)),
    beyond: (t) => Math.exp(-x(t)),
    logDensity: (t) => Math.log(shape / scale) + (shape - 1) * Math.log(t / scale) - x(t),
    lostBy: (t) => -Math.expm1(-x(t)) + (t / scale) * upperGamma(1 - 1 / shape, x(t)),
  };
}

/** Shape and scale, read off the engine's law: its quantile is scale (-ln(1 - u))^(1/shape). */
function weibullParameters(mean: number, cv: number): { shape: number; scale: number } {
  const law = weibullLaw(mean, cv);
  const scale = law.quantile(-Math.expm1(-1));
  return { shape: 1 / Math.log(law.quantile(-Math.expm1(-Math.E)) / scale), scale };
}
