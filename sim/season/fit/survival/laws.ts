/** The laws of growth times that are fitted. */

import { gammaLaw } from '../../../engine/gamma-law.js';
import { type FittedLaw, lognormalLaw, weibullLaw } from '../../../engine/laws.js';

/** Shapes that are fitted. The exponential law is the Weibull law with a CV of 1. */
export const FITTED_SHAPES = ['lognormal', 'gamma', 'weibull'] as const;

export type FittedShape = (typeof FITTED_SHAPES)[number];

const LAWS = { lognormal: lognormalLaw, gamma: gammaLaw, weibull: weibullLaw };

/**
 * @param mean above 0 [d]
 * @param cv standard deviation over mean, above 0
 */
export function fittedLaw(shape: FittedShape, mean: number, cv: number): FittedLaw {
  return LAWS[shape](mean, cv);
}
