/** All that a crop does, stage by stage and in regrowth: looked at, and changed. */

import type { CropPlan, Growing } from './plan.js';

export function growingsOf({ stages, regrow }: CropPlan): readonly Growing[] {
  return regrow === null ? stages : [...stages, regrow];
}

export function withGrowings(crop: CropPlan, change: (growing: Growing) => Growing): CropPlan {
  return {
    ...crop,
    stages: crop.stages.map(change),
    regrow: crop.regrow === null ? null : change(crop.regrow),
  };
}

/** The crop if every seed sprouted, no plant died, and what is ready kept for ever. */
export function losslessCrop(crop: CropPlan): CropPlan {
  const change = (growing: Growing): Growing => ({ ...growing, loss: 0, keeps: Number.POSITIVE_INFINITY });
  return { ...withGrowings(crop, change), germination: 1 };
}
