/** What may come down: tiers that bear more than their label allows, and a tank that spills when the pump stops. */

import { cropCourse } from '../../models/physical/crop-course.js';
import { isNarrow, tierLoad } from '../../models/physical/load.js';
import type { PhysicalPlan } from '../../models/physical/plan.js';
import { drainBackL, spillL } from '../../models/physical/pump-stop.js';
import { heaviestReadyG } from '../../models/physical/ready-mass.js';
import type { Plan } from '../../models/plan.js';
import type { WarningDraft } from '../faults.js';

/** @param physical of that plan */
export function shelfWarnings(plan: Plan, physical: PhysicalPlan): WarningDraft[] {
  return [
    ...tierWarnings(plan, physical),
    ...channelWarnings(plan, physical),
    ...spillWarnings(plan, physical),
  ];
}

function tierWarnings(plan: Plan, physical: PhysicalPlan): WarningDraft[] {
  const courses = plan.crops.map((_, c) => {
    const course = cropCourse(plan, physical, c);
    return course?.ok ? course.value : null;
  });
  return physical.tiers.flatMap((tier, i): WarningDraft[] => {
    const { name, stage, ratedKg } = tier;
    if (ratedKg === null) return [];
    // Where plants are not known, what is known may be too much already.
    const plantG = heaviestReadyG(plan, physical, courses, stage) ?? 0;
    const holes = plan.stages[stage]!.holesPerChannel;
    const { floodedKg, marginKg } = tierLoad(tier, physical.stages[stage]!.channelSize!, holes, plantG);
    const over = marginKg! < 0;
    if (!over && !isNarrow(marginKg!, ratedKg)) return [];
    const bears = `${name} bears ${short(floodedKg)} kg with its channels full to the brim, as a blocked drain fills them; its label allows ${ratedKg} kg`;
    const message = over
      ? `${bears}: ${short(-marginKg!)} kg too much.`
      : `${bears}: less than a fifth of that is left.`;
    return [{ path: ['tiers', i, 'rated_kg'], message, caution: 'load' }];
  });
}

/** More channels on the tiers of a stage than it has. */
function channelWarnings({ stages }: Plan, { tiers }: PhysicalPlan): WarningDraft[] {
  return stages.flatMap(({ name, channels }, s) => {
    const own = tiers.filter(({ stage }) => stage === s);
    const borne = own.reduce((sum, tier) => sum + tier.channels, 0);
    if (borne <= channels) return [];
    const message = `The tiers of ${name} bear ${borne} channels, and it has ${channels}.`;
    return [{ path: ['tiers', tiers.lastIndexOf(own.at(-1)!), 'channels'], message }];
  });
}

function spillWarnings({ stages }: Plan, physical: PhysicalPlan): WarningDraft[] {
  const { tank } = physical;
  if (tank === null) return [];
  const back = drainBackL(
    tank,
    stages.map(({ channels }, s) => ({ channels, size: physical.stages[s]!.channelSize })),
  );
  const spill = back === null ? 0 : spillL(tank, back);
  if (!(spill > 0)) return [];
  const message = `When the pump stops, ${short(back!)} litres come back, and the tank has room for ${short(tank.litres - tank.fullL)}: ${short(spill)} litres run onto the floor. Top up less, or take a larger tank.`;
  return [{ path: ['tank', 'full_l'], message, caution: 'water' }];
}

/** A figure with three digits. */
export function short(value: number): number {
  return Number(value.toPrecision(3));
}
