/**
 * The weeks in which a search counts: those in which every candidate has settled. Fixed before any season, for the weeks
 * in which a plan is judged must not depend on how it fares.
 *
 * A line has settled when the plants of its first sowing are through: after the sum of their mean times, twice the standard
 * deviation of that sum (stages are independent, so variances add up), and the longest gap between two visits.
 */

import { largest } from '../../engine/lists.js';
import type { CropPlan, Plan } from '../../models/plan.js';

/** Standard deviations beyond the mean after which the first plants are through: 98 of 100 of them. */
const DEVIATIONS = 2;

/** @returns number of the first week that counts, from 0; at least the number of weeks of a season if there is none */
export function firstCountedWeek(plans: readonly Plan[]): number {
  return Math.ceil(largest(plans.map(settledDay)) / 7);
}

/** When the slowest crop has settled [d]; Infinity if nobody ever comes or nothing is sown. */
export function settledDay(plan: Plan): number {
  const days = plan.crops.map((crop) => firstSowing(crop) + throughDays(crop) + longestGap(plan));
  const sown = days.filter((day) => Number.isFinite(day));
  return sown.length === 0 ? Number.POSITIVE_INFINITY : largest(sown);
}

/** @returns Infinity if the crop is not sown in this season */
function firstSowing({ sowing }: CropPlan): number {
  if (sowing.kind === 'refill') return 0;
  return sowing.days[0] ?? Number.POSITIVE_INFINITY;
}

function throughDays({ stages }: CropPlan): number {
  const mean = stages.reduce((sum, { time }) => sum + time.days, 0);
  const variance = stages.reduce((sum, { time }) => sum + (time.days * time.spread) ** 2, 0);
  return mean + DEVIATIONS * Math.sqrt(variance);
}

/** Longest time without a visit, from the start on [d]; Infinity if there is none. */
function longestGap({ visits }: Plan): number {
  if (visits.kind === 'always') return 0;
  if (visits.days.length === 0) return Number.POSITIVE_INFINITY;
  return largest(visits.days.map((day, i) => day - (i === 0 ? 0 : visits.days[i - 1]!)));
}
