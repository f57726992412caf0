/**
 * Water that leaves give off: Graamans et al. 2017 (Agricultural Systems 153:138-147; equations seen in public restatements), with
 * leaf temperature taken out by the slope of saturation. One part goes with the light that leaves catch, the other with the leaf
 * that the dry air reaches. Good to a factor of 1.5, until it is scaled to the grower's meter.
 */

import { EVAPORATION_MJ_KG, psychrometricKpa, saturationSlope, vapourDeficitKpa } from './moist-air.js';
import type { Air, LampPlan } from './plan.js';

/** Litres that a watt evaporates in an hour (a kilogram of water is a litre). */
const LITRES_PER_WH = 3600 / (EVAPORATION_MJ_KG * 1e6);
/** Light on leaves that is not thrown back [-] (from memory). */
const ABSORBED = 0.95;
/** umol of photons a joule of the lamps' light: as in two-state-growth.ts. */
const UMOL_PER_J = 4.6;
/** Heat of a cubic metre of air: 1.2 kg/m3 x 1006 J/kg [J m-3 K-1]. */
const AIR_HEAT = 1207.2;
/** Resistance of the air at a leaf [s/m]: leaves of 0.11 m in 0.15 m/s. */
export const AIR_RESISTANCE = 100;

/** Resistance of the stomata [s/m]. @param ppfd [umol m-2 s-1] */
export function stomatalResistance(ppfd: number): number {
  return (60 * (1500 + ppfd)) / (200 + ppfd);
}

/** Water given off: for a square metre of light caught (cover), and for a square metre of leaf. */
export interface WaterPace {
  readonly cover: number;
  readonly leaf: number;
}

/**
 * Litres an hour, per m2 of cover and per m2 of leaf.
 * @param humidity [%] @param altitudeM above the sea [m]
 */
export function hourlyWater(ppfd: number, airC: number, humidity: number, altitudeM: number): WaterPace {
  const slope = saturationSlope(airC);
  const resists = 1 + stomatalResistance(ppfd) / AIR_RESISTANCE;
  const perWatt = LITRES_PER_WH / (slope + psychrometricKpa(altitudeM) * resists);
  return {
    cover: perWatt * slope * ABSORBED * (ppfd / UMOL_PER_J),
    leaf: (perWatt * AIR_HEAT * vapourDeficitKpa(airC, humidity)) / AIR_RESISTANCE,
  };
}

/** Litres an hour with the lamps on and off, and of a whole day, before `water.scale`. */
export interface StageWater {
  readonly on: WaterPace;
  readonly off: WaterPace;
  readonly day: WaterPace;
}

/** What a square metre gives off in a stage; null without humidity. */
export function stageWater(
  { ppfd, hours }: Pick<LampPlan, 'ppfd' | 'hours'>,
  { airC, nightC, humidity, nightHumidity, altitudeM }: Air,
): StageWater | null {
  if (humidity === null || nightHumidity === null) return null;
  const on = hourlyWater(ppfd, airC, humidity, altitudeM);
  const off = hourlyWater(0, nightC, nightHumidity, altitudeM);
  const day = {
    cover: hours * on.cover + (24 - hours) * off.cover,
    leaf: hours * on.leaf + (24 - hours) * off.leaf,
  };
  return { on, off, day };
}

/**
 * What `water.scale` is by a meter [-]: litres that plants gave off over litres by the model.
 * @param meterL litres by the meter @param inPlantsL what of them stands in plants @param modelL given off at scale 1
 */
export function meterScale(meterL: number, inPlantsL: number, modelL: number): number {
  return (meterL - inPlantsL) / modelL;
}
