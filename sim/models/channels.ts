/** A plan with other channels, and what comes with them: lamps that were metered hang over every channel alike. */

import type { PhysicalStage } from './physical/plan.js';
import type { Plan } from './plan.js';

/** So few that there and back again is as before. */
const DIGITS = 12;

/**
 * What metered lamps draw when there is more or less of them, or of their light [W].
 * @param watts what they draw of `now` (channels, light) @param then so much of it instead
 */
export function wattsFor(watts: number, now: number, then: number): number {
  return then === now ? watts : Number(((watts * then) / now).toPrecision(DIGITS));
}

/** @param counts channels of every stage of the line */
export function withChannels(plan: Plan, counts: readonly number[]): Plan {
  const { physical } = plan;
  const stages = plan.stages.map((stage, s) => ({ ...stage, channels: counts[s]! }));
  if (physical == null) return { ...plan, stages };
  const lit = physical.stages.map((stage, s) => withWatts(stage, plan.stages[s]!.channels, counts[s]!));
  return { ...plan, stages, physical: { ...physical, stages: lit } };
}

function withWatts(stage: PhysicalStage, now: number, then: number): PhysicalStage {
  const { lamps } = stage;
  if (then === now || lamps?.power?.kind !== 'metered') return stage;
  const watts = wattsFor(lamps.power.watts, now, then);
  return { ...stage, lamps: { ...lamps, power: { kind: 'metered', watts } } };
}
