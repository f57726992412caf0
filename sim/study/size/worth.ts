/** What one more channel is worth in each stage, and so which stage holds the line back. */

import type { Estimate } from '../../seasons/sections.js';
import { WORTH } from '../bottleneck.js';
import { differenceOf, type Figure, type Samples } from '../figures.js';

/** One more channel of a stage, all else as it is. */
export interface Worth {
  readonly stage: string;
  /** Holes of that channel. */
  readonly holes: number;
  /** More heads a week, with the same luck; null if no week counts. */
  readonly heads_a_week: Estimate | null;
  /** true if the interval lies above 0 and the gain is worth a two-hundredth of the picks. */
  readonly brings: boolean;
}

export interface Worths {
  readonly stages: readonly Worth[];
  /**
   * The stage where one more channel is worth most, and those that cannot be told from it; none if it brings nothing anywhere;
   * null if there are too few seasons, or no weeks, to tell.
   */
  readonly hold_back: readonly string[] | null;
}

/**
 * @param present the plan as it is
 * @param more the plan with one more channel, one for each stage
 */
export function worthsOf(present: Samples, more: readonly Samples[], heads: Figure): Worths {
  const worth = WORTH * heads.of(present.all);
  const stages = present.all.plan.stages.map(({ name, holesPerChannel }, s): Worth => {
    const gain = differenceOf(more[s]!, present, heads);
    const brings = gain !== null && gain.low !== null && gain.low > 0 && gain.mean >= worth;
    return { stage: name, holes: holesPerChannel, heads_a_week: gain, brings };
  });
  if (stages.some(({ heads_a_week: gain }) => gain === null || gain.low === null))
    return { stages, hold_back: null };
  const bring = stages
    .map((_, s) => s)
    .filter((s) => stages[s]!.brings)
    .sort((a, b) => stages[b]!.heads_a_week!.mean - stages[a]!.heads_a_week!.mean);
  const equal = bring.filter((s) => !(lowOf(differenceOf(more[bring[0]!]!, more[s]!, heads)) > 0));
  return { stages, hold_back: equal.map((s) => stages[s]!.stage) };
}

function lowOf(estimate: Estimate | null): number {
  return estimate?.low ?? Number.NaN;
}
