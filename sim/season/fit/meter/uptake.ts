/**
 * `tank.uptake_ec` by the grower's readings: the conductivity of what plants take up.
 *
 * The salts in the tank before it is topped up, (V - used) x EC, are those at the beginning and what was topped up since, less what was
 * taken up: uptake_ec x litres used (the equations of models/physical/conductivity.ts, summed). So from reading to reading of one
 * filling the salts less those topped up fall in a straight line with the litres used, and its slope is uptake_ec. Each filling has a
 * beginning of its own: nobody mixes it to the last digit.
 *
 * A reading is off by the meter, and the line itself strays where litres are off or plants take up more at one time than at another. How
 * much of each there is the readings tell: a level that wanders beside readings that are off (Harvey 1989, Forecasting, structural
 * time series models and the Kalman filter, from memory), its share by restricted likelihood, the slope by least squares of what is new
 * in each reading.
 */

import { studentInterval } from '../../../engine/student.js';
import type { Spell, TankDay } from './spells.js';

/** A reading of a filling. */
export interface SaltReading {
  /** Litres used since the filling's first reading, or since it was made [L]. */
  readonly usedL: number;
  /** Salts in the tank less those that were topped up since [mS/cm x L]. */
  readonly salts: number;
  /** As read [mS/cm]. */
  readonly ec: number;
}

export interface UptakeEstimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** Variance of a step of the level over that of a reading, for a litre used times the mean litres between readings. */
const WANDERS = [0, ...Array.from({ length: 13 }, (_, i) => 10 ** (-3 + i / 2))];

/**
 * @param spells of these days; where one was left out nobody knows what was used, so another filling begins for us
 * @param fullL the full tank [L] @param topUpEc conductivity of what is topped up [mS/cm]
 * @returns readings of each filling, in their order
 */
export function saltReadings(
  days: readonly TankDay[],
  spells: readonly Spell[],
  fullL: number,
  topUpEc: number,
): SaltReading[][] {
  const spellTo = new Map(spells.map((spell) => [spell.to, spell]));
  const fillings: SaltReading[][] = [[]];
  let usedL = 0;
  let addedL = 0;
  const begin = (): void => {
    fillings.push([]);
    usedL = 0;
    addedL = 0;
  };
  for (const { day, ec, litres, filling } of days) {
    if (litres !== null) {
      const spell = spellTo.get(day);
      if (spell === undefined || spell.leftOut !== null) begin();
      else usedL += litres;
      if (ec !== null && litres < fullL)
        fillings.at(-1)!.push({ usedL, salts: (fullL - litres) * ec - topUpEc * addedL, ec });
      addedL += litres;
    }
    if (filling !== undefined) begin();
  }
  return fillings.filter((readings) => readings.length > 1);
}

/** @returns null with fewer than two readings beyond the first of each filling, or none of which litres were used between */
export function uptakeEc(fillings: readonly (readonly SaltReading[])[]): UptakeEstimate | null {
  const steps = fillings.reduce((sum, readings) => sum + readings.length - 1, 0);
  const litres = fillings.reduce((sum, readings) => sum + readings.at(-1)!.usedL - readings[0]!.usedL, 0);
  if (steps < 2 || !(litres > 0)) return null;
  let best: { readonly likelihood: number; readonly slope: number; readonly error: number } | null = null;
  for (const wander of WANDERS) {
    const fit = sloped(fillings, (wander * steps) / litres, steps - 1);
    if (best === null || fit.likelihood > best.likelihood) best = fit;
  }
  const { low, high } = studentInterval(best!.slope, best!.error, steps - 1);
  return { value: best!.slope, low, high };
}

/** The slope if the level wanders so much for a litre used. @param df degrees of freedom */
function sloped(fillings: readonly (readonly SaltReading[])[], wander: number, df: number) {
  let xx = 0;
  let xy = 0;
  let yy = 0;
  let logs = 0;
  for (const readings of fillings) {
    // The level by the readings so far, for salts and for litres alike: both are filtered in the same way.
    let [{ salts: y, usedL: x }] = readings as [SaltReading, ...SaltReading[]];
    let spread = 1;
    for (const [i, { salts, usedL }] of readings.entries()) {
      if (i === 0) continue;
      spread += wander * (usedL - readings[i - 1]!.usedL);
      const total = spread + 1;
      const newY = salts - y;
      const newX = x - usedL;
      xx += (newX * newX) / total;
      xy += (newX * newY) / total;
      yy += (newY * newY) / total;
      logs += Math.log(total);
      const gain = spread / total;
      y += gain * newY;
      x -= gain * newX;
      spread = gain;
    }
  }
  const slope = xy / xx;
  const squares = Math.max(0, yy - slope * xy);
  const scatter = squares / df;
  const likelihood = -0.5 * (df * Math.log(Math.max(scatter, Number.MIN_VALUE)) + logs + Math.log(xx));
  return { likelihood, slope, error: Math.sqrt(scatter / xx) };
}
