/** The pump stops: what runs back, what may end on the floor, and how long plants last. */

import type { ChannelSize, TankPlan } from './plan.js';

/** Water that runs in a channel [L]. */
export function filmL({ lengthCm, widthCm, filmMm }: ChannelSize): number {
  return (lengthCm * widthCm * filmMm) / 1e4;
}

/** Water in a channel that is full to the brim [L]. */
export function brimL({ lengthCm, widthCm, heightCm }: ChannelSize): number {
  return (lengthCm * widthCm * heightCm) / 1e3;
}

/** Channels of one size; null: not told. */
export interface Channels {
  readonly channels: number;
  readonly size: ChannelSize | null;
}

/** What runs back into the tank [L]; null where the size of a channel is not told. */
export function drainBackL({ pipesL }: TankPlan, stages: readonly Channels[]): number | null {
  let back = pipesL;
  for (const { channels, size } of stages) {
    if (size === null) return null;
    back += channels * filmL(size);
  }
  return back;
}

/** What of it finds no room in the tank [L]. @param backL what runs back */
export function spillL({ litres, fullL }: TankPlan, backL: number): number {
  return Math.max(0, backL - (litres - fullL));
}

/** What a blocked drain can put on the floor before the pump draws air [L]. */
export function floodL({ fullL, lowL }: TankPlan): number {
  return fullL - lowL;
}

/** A plant that is ready. */
export interface ThirstyPlant {
  /** What it gives off [mL/h]. */
  readonly mlPerHour: number;
  /** Water in it [mL]. */
  readonly waterMl: number;
}

/** Shares that are a judgement: what of the held water roots reach, how much faster than at rest it goes, what of a plant's own it can spare. */
const REACHED = 0.5;
const FASTER = 1.5;
const SPARED = 0.1;

/**
 * Hours until the thirstiest plant wilts, at least and at most; null without plants. A judgement: no measured hours were found.
 * Of two alike the one with less water counts.
 */
export function hoursToWilting(
  heldMl: number,
  plants: readonly ThirstyPlant[],
): { readonly least: number; readonly most: number } | null {
  let thirstiest: ThirstyPlant | null = null;
  for (const plant of plants) {
    const more = plant.mlPerHour - (thirstiest?.mlPerHour ?? 0);
    if (more > 0 || (more === 0 && plant.waterMl < (thirstiest?.waterMl ?? 0))) thirstiest = plant;
  }
  if (thirstiest === null) return null;
  const { mlPerHour, waterMl } = thirstiest;
  return {
    least: (REACHED * heldMl) / (FASTER * mlPerHour),
    most: (heldMl + SPARED * waterMl) / mlPerHour,
  };
}
