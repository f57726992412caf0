/** What a tier of a rack bears: even static load, nothing else. The shelf's own label and a competent person decide. */

import type { ChannelSize, TierPlan } from './plan.js';
import { brimL, filmL } from './pump-stop.js';

export interface TierLoad {
  /** With the pump running [kg]. */
  readonly kg: number;
  /** With its channels full to the brim, as a blocked drain fills them [kg]. */
  readonly floodedKg: number;
  /** What the label leaves beyond that [kg], below 0: over; null without a label. */
  readonly marginKg: number | null;
}

/** Share of what the label allows below which a margin is too narrow to be left unsaid. */
const NARROW = 0.2;

/**
 * @param holes of one channel
 * @param plantG the heaviest plant that is ready in the stage, with root and water [g]
 */
export function tierLoad(tier: TierPlan, size: ChannelSize, holes: number, plantG: number): TierLoad {
  const { channels, lampsKg, otherKg, plugG, ratedKg } = tier;
  const plants = (holes * (plantG + plugG)) / 1000;
  // A litre of solution is a kilogram.
  const loaded = (waterL: number): number => channels * (size.kg + waterL + plants) + lampsKg + otherKg;
  const floodedKg = loaded(brimL(size));
  return { kg: loaded(filmL(size)), floodedKg, marginKg: ratedKg === null ? null : ratedKg - floodedKg };
}

/** Is a margin too narrow, though not overdrawn? */
export function isNarrow(marginKg: number, ratedKg: number): boolean {
  return marginKg >= 0 && marginKg < NARROW * ratedKg;
}
