/** What numbers of light, water, weight, minutes and money may be, so that what is reckoned from them stays a number. */

import type { Limits } from '../../models/limits.js';

/** Light at the leaves [umol m-2 s-1]; the sun at noon has 2000. */
export const PPFD: Limits = { least: 0, most: 5000 };
export const HOURS: Limits = { least: 0, most: 24 };
/** A warmth, also one that was meant in Fahrenheit: that is told, not refused [degC]. */
export const WARMTH: Limits = { least: -50, most: 150 };
/** Where seeds germinate: colder, nothing of what is reckoned holds [degC]. */
export const GERMINATION: Limits = { least: 5, most: 150 };
/** [ppm] */
export const CO2: Limits = { least: 1, most: 100_000 };
/** [%] */
export const HUMIDITY: Limits = { least: 0, most: 100 };
/** Most of litres, kilograms, minutes, prices. */
export const MOST = 1_000_000;
export const AMOUNT: Limits = { least: 0, most: MOST };
