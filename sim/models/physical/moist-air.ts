/** Moist air: FAO Irrigation and Drainage Paper 56 (Allen et al. 1998), equations 7, 8, 11 and 13. */

import { power } from '../../engine/power.js';

/** Heat of evaporation [MJ/kg]. */
export const EVAPORATION_MJ_KG = 2.45;

/** Saturation vapour pressure [kPa]. @param airC [degC] */
export function saturationKpa(airC: number): number {
  return 0.6108 * Math.exp((17.27 * airC) / (airC + 237.3));
}

/** Its slope with temperature [kPa/degC]. */
export function saturationSlope(airC: number): number {
  const above = airC + 237.3;
  return (4098 * saturationKpa(airC)) / (above * above);
}

/** What the air lacks of saturation [kPa]. @param humidity [%] */
export function vapourDeficitKpa(airC: number, humidity: number): number {
  return saturationKpa(airC) * (1 - humidity / 100);
}

/** Pressure of the air [kPa]. @param altitudeM above the sea [m] */
export function pressureKpa(altitudeM: number): number {
  return 101.3 * power((293 - 0.0065 * altitudeM) / 293, 5.26);
}

/** Psychrometric constant [kPa/degC]. @param altitudeM above the sea [m] */
export function psychrometricKpa(altitudeM: number): number {
  return (1.013e-3 / (0.622 * EVAPORATION_MJ_KG)) * pressureKpa(altitudeM);
}
