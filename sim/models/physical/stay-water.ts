/** Water that a plant in its hole gives off: in the course of its stay, and when it is ready. */

import type { CoverCurve } from './cover.js';
import type { WaterPace } from './transpiration.js';

/**
 * What a plant gives off from the beginning of its stay on [L], before `water.scale`.
 * @param day litres a day, per m2
 * @param days that the whole stay takes [d]
 * @param u how far it has come [0..1]
 */
export function stayL(curve: CoverCurve, day: WaterPace, days: number, u: number): number {
  return curve.areaM2 * days * (day.cover * curve.coverTime(u) + day.leaf * curve.leafTime(u));
}

/** What a plant that is ready gives off in the time of `pace` (an hour, a day) [L], before `water.scale`. */
export function readyL(curve: CoverCurve, pace: WaterPace): number {
  return curve.areaM2 * (pace.cover * curve.cover(1) + pace.leaf * curve.leafLayers(1));
}
