/**
 * What blocked seedlings cost: the heads of the same futures with room without limit behind the first stage, less those with
 * the line's own holes. Only what is sown in the weeks that are looked at counts, until all of it has been picked: else plants
 * that come a little later would count as lost.
 */

import { holesOf, type Plan, seedsDue } from '../../models/plan.js';
import * as route from '../../models/route.js';
import { differenceOf, type PairedDifference } from './advice.js';
import { type FuturesSetup, runFutures } from './futures.js';
import type { WeeksLook } from './looks.js';
import { picksIn } from './weeks-watch.js';

/** Futures that are run of each of the two, at most. */
const FUTURES = 50;

export function costRuns(futures: number): number {
  return 2 * Math.min(FUTURES, futures);
}

/** null: it cannot be told, since what is sown to refill depends on the room. */
export type BlockedCost = { readonly heads: PairedDifference | null };

/**
 * @param to the end of the sowings that count [d from the start]
 * @param counting weeks in which heads are counted: until the last of the sowings has been picked
 * @returns null if `pause` said to stop
 */
export async function blockedCost(
  plan: Plan,
  to: number,
  futures: number,
  setup: FuturesSetup,
  counting: WeeksLook,
): Promise<BlockedCost | null> {
  if (plan.crops.some(({ sowing }) => sowing.kind === 'refill')) return { heads: null };
  const few = Math.min(FUTURES, futures);
  const bounded = sownBetween(plan, -1, to);
  const limited = await runFutures(bounded, few, setup, 'heads', counting);
  const free = limited && (await runFutures(roomy(bounded, setup), few, setup, 'heads', counting));
  if (limited === null || free === null) return null;
  return { heads: differenceOf(picksIn(limited), picksIn(free)) };
}

/** The plan with only what falls due after one day and before another. */
export function sownBetween(plan: Plan, over: number, to: number): Plan {
  const crops = plan.crops.map((crop) => {
    const { sowing } = crop;
    if (sowing.kind === 'refill') return crop;
    const { days, more } = sowing;
    const counts = (day: number): boolean => day > over && day < to;
    const seeds = more && { more: more.filter((_, i) => counts(days[i]!)) };
    return { ...crop, sowing: { ...sowing, days: days.filter(counts), ...seeds } };
  });
  return { ...plan, crops };
}

/** With holes for all plants at once in every stage but the first. */
function roomy(plan: Plan, { openings }: FuturesSetup): Plan {
  const { stand } = openings;
  // What was due by then is not sown any more.
  const coming = sownBetween(plan, stand?.day ?? -1, Infinity);
  const plants = (stand?.plants.batch.length ?? 0) + seedsDue(coming);
  const stages = plan.stages.map((stage, s) =>
    s === route.first(plan) ? stage : { ...stage, channels: 1, holesPerChannel: holesOf(stage) + plants },
  );
  return { ...plan, stages };
}
