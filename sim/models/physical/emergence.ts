/**
 * Days until a seedling shows.
 *
 * Thermal time, fitted to the lettuce of Harrington & Minges 1954 (University of California leaflet, in Knott's Handbook): 7, 4, 3
 * and 2 days at 10, 15, 20 and 25 degC. Warmer than 25 degC is no faster: from there on lettuce refuses (Gray 1975).
 */

const BASE_C = 2.8;
const DEGREE_DAYS = 47.3;
const NO_FASTER_C = 25;
/** Where no warmth is told [d]: lettuce at 20 degC, rounded. */
const DAYS_UNTOLD = 3;

/**
 * The days of a thermal time [d], in which warmth above a base adds up to degree days.
 * @param warmthC above `baseC` [degC]
 */
export function thermalDays(warmthC: number, baseC: number, degreeDays: number): number {
  return degreeDays / (warmthC - baseC);
}

/**
 * @param told days that the grower knows [d]; null: by the warmth
 * @param germinationC [degC], above 2.8; null: not told
 */
export function emergenceDays(told: number | null, germinationC: number | null): number {
  if (told !== null) return told;
  return germinationC === null
    ? DAYS_UNTOLD
    : thermalDays(Math.min(NO_FASTER_C, germinationC), BASE_C, DEGREE_DAYS);
}

/** The latest share of the first stage at which a seedling shows. */
const LATEST_SHOW = 0.9;

/** Share of a first stage of `days` after which a seedling shows that takes `emergence` days [0..0.9]. */
export function showsAt(emergence: number, days: number): number {
  return Math.min(LATEST_SHOW, emergence / days);
}
