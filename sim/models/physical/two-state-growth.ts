/**
 * The lettuce growth model of Van Henten 1994 (Agricultural Systems 45:55-72; equations seen in a public restatement): a plant is
 * made of what it has caught and not yet built in (loose), and of what is built (structural). Both in g of dry mass per m2.
 *
 * Here over an averaged day: photosynthesis at the day's temperature for the hours of light; growth and respiration at day and night,
 * weighted by their hours. Below, g and m2 are of ground, CH2O is carbohydrate.
 */

import { power } from '../../engine/power.js';
import type { Conditions } from './plan.js';

const SECONDS_PER_DAY = 86_400;
/** umol of photons a joule of photosynthetic light: lamps (Thimijan & Heins 1983, from memory; 1/0.217 = 4.6 seen). */
const UMOL_PER_J = 4.6;

/** CH2O from CO2 [g/g]. */
const CARBOHYDRATE = 0.68;
/** Mass that is built from CH2O [g/g]. */
const BUILT = 0.8;
/** Most relative growth at 20 degC [1/s], and its factor for 10 degC more [-]. */
const GROWTH = 5e-6;
const GROWTH_Q10 = 1.6;
/** Root of what is built, in water [-]. */
const ROOT = 0.07;
/** Respiration of shoot and root at 25 degC [g CH2O per g and s], and their factor for 10 degC more [-]. */
const SHOOT_RESPIRATION = 3.47e-7;
const ROOT_RESPIRATION = 1.16e-7;
const RESPIRATION_Q10 = 2;
/** Extinction coefficient of light [-], and leaf of a gram of structural shoot [m2/g]. */
const EXTINCTION = 0.9;
const LEAF_M2_PER_G = 75e-3;
/** Light use at very much CO2 [g CO2/J]. */
const LIGHT_USE = 17e-6;
/** CO2 compensation at 20 degC [ppm], and its factor for 10 degC more [-]. */
const COMPENSATION = 40;
const COMPENSATION_Q10 = 2;
/** CO2 of a ppm [g m-3]. */
const CO2_PER_PPM = 1.83e-3;
/** Conductance of boundary layer (sources differ: 0.004 to 0.007; from memory) and stomata [m/s]. */
const BOUNDARY = 0.007;
const STOMATA = 0.005;

/** What photosynthesis, growth and respiration are under some conditions, a day. */
export interface GrowthPace {
  /** CH2O that a closed canopy makes, as dry mass [g m-2 d-1]. */
  readonly makes: number;
  /** Most relative growth [1/d]. */
  readonly grows: number;
  /** Respiration [g per g of structural mass and day]. */
  readonly respires: number;
}

/** Loose and structural dry mass [g/m2]. */
export interface TwoStates {
  readonly loose: number;
  readonly built: number;
}

/** Split of a seed's mass (from memory). */
const LOOSE_OF_SEED = 0.25;

export function seedStates(total: number): TwoStates {
  return { loose: LOOSE_OF_SEED * total, built: (1 - LOOSE_OF_SEED) * total };
}

/** The paces of the averaged day. */
export function growthPace({ ppfd, hours, co2, airC, nightC }: Omit<Conditions, 'germinationC'>): GrowthPace {
  const lit = hours / 24;
  const respiration = (1 - ROOT) * SHOOT_RESPIRATION + ROOT * ROOT_RESPIRATION;
  const mean = (q10: number, at: number): number =>
    lit * warmth(q10, airC - at) + (1 - lit) * warmth(q10, nightC - at);
  return {
    makes: CARBOHYDRATE * canopyUptake(ppfd / UMOL_PER_J, co2, airC) * lit * SECONDS_PER_DAY,
    grows: GROWTH * mean(GROWTH_Q10, 20) * SECONDS_PER_DAY,
    respires: respiration * mean(RESPIRATION_Q10, 25) * SECONDS_PER_DAY,
  };
}

function warmth(q10: number, above: number): number {
  return power(q10, above / 10);
}

/** CO2 that a closed canopy takes up [g m-2 s-1]. @param light [W m-2] @param airC between 5 and 40 degC */
function canopyUptake(light: number, co2: number, airC: number): number {
  const compensation = COMPENSATION * warmth(COMPENSATION_Q10, airC - 20);
  const byLight = ((LIGHT_USE * (co2 - compensation)) / (co2 + 2 * compensation)) * light;
  const carboxylation = -1.32e-5 * airC * airC + 5.94e-4 * airC - 2.64e-3;
  const conductance = 1 / (1 / BOUNDARY + 1 / STOMATA + 1 / carboxylation);
  const byCo2 = conductance * CO2_PER_PPM * (co2 - compensation);
  return byLight === 0 ? 0 : (byLight * byCo2) / (byLight + byCo2);
}

/** Light that leaves catch a gram of structural mass: 1 - exp(-this x mass) [m2/g]. */
const CATCHES = EXTINCTION * LEAF_M2_PER_G * (1 - ROOT);

/** Rates of both states [g m-2 d-1]. */
export function growthRates({ makes, grows, respires }: GrowthPace, { loose, built }: TwoStates): TwoStates {
  const building = (grows * loose * built) / (built + loose);
  return {
    loose: makes * -Math.expm1(-CATCHES * built) - respires * built - building / BUILT,
    built: building,
  };
}

/** Step of integration [d]. */
const STEP = 0.05;

/** One step of Runge and Kutta's fourth order. */
function step(pace: GrowthPace, at: TwoStates): TwoStates {
  const k1 = growthRates(pace, at);
  const k2 = growthRates(pace, moved(at, k1, STEP / 2));
  const k3 = growthRates(pace, moved(at, k2, STEP / 2));
  const k4 = growthRates(pace, moved(at, k3, STEP));
  return {
    loose: at.loose + (STEP / 6) * (k1.loose + 2 * k2.loose + 2 * k3.loose + k4.loose),
    built: at.built + (STEP / 6) * (k1.built + 2 * k2.built + 2 * k3.built + k4.built),
  };
}

function moved(at: TwoStates, rate: TwoStates, days: number): TwoStates {
  return { loose: at.loose + days * rate.loose, built: at.built + days * rate.built };
}

/** Longest growth that is followed [d]: what is not reached in a year is not reached. */
const LONGEST = 365;

/** The states at which a crop has some mass, and the days until then. */
export interface Reached {
  readonly days: number;
  readonly states: TwoStates;
}

/**
 * Grow until the sum of both states is `total`; the last step is cut linearly.
 * @param total [g/m2]
 * @returns null if it is never reached
 */
export function growUntil(pace: GrowthPace, from: TwoStates, total: number): Reached | null {
  let at = from;
  let mass = at.loose + at.built;
  if (mass >= total) return { days: 0, states: at };
  for (let steps = 0; steps * STEP < LONGEST; steps++) {
    const next = step(pace, at);
    const grown = next.loose + next.built;
    if (grown >= total) {
      const share = (total - mass) / (grown - mass);
      const states = moved(at, { loose: next.loose - at.loose, built: next.built - at.built }, share);
      return { days: (steps + share) * STEP, states };
    }
    at = next;
    mass = grown;
  }
  return null;
}

/** Grow for so many days; a last step that is not whole is cut linearly. */
export function growFor(pace: GrowthPace, from: TwoStates, days: number): TwoStates {
  let at = from;
  const whole = Math.floor(days / STEP + 1e-9);
  for (let steps = 0; steps < whole; steps++) at = step(pace, at);
  const rest = days / STEP - whole;
  if (!(rest > 1e-9)) return at;
  const next = step(pace, at);
  return moved(at, { loose: next.loose - at.loose, built: next.built - at.built }, rest);
}
