/**
 * Which seeds on the coming dates bring more than those of the plan: worked out (seeds-that-fit.ts), tried, and compared with
 * the plan in the same futures.
 *
 * What fits by mean times may still be a little too much or too little for a line in which times vary. So the whole list is
 * tried as it is and with some more and some fewer seeds; the smallest is taken that brings no fewer heads than the best,
 * as far as those futures can tell.
 */

import { groupedBy, meanOf, sumOf } from '../../engine/lists.js';
import { intervalOfMean } from '../../engine/student.js';
import type { Plan } from '../../models/plan.js';
import { type ComingSowing, withoutSowings, withSeeds } from './coming-sowings.js';
import { type FuturesSetup, runFutures } from './futures.js';
import { Load } from './load-watch.js';
import type { WeeksLook } from './looks.js';
import { seedsThatFit, wholeSeeds } from './seeds-that-fit.js';
import { picksIn } from './weeks-watch.js';

/** Multiples of the list that are tried. */
const MULTIPLES = [0.8, 0.9, 1, 1.1, 1.25];
/** Futures in which they are tried, at most. */
const FUTURES = 50;
/** What is worth another list: this share more heads, or at most this share of the plan's seeds for as many heads. */
const MORE = 0.01;
const FEWER = 0.95;
/** As many heads: surely no more than this share is missing. */
const AS_MANY = 0.01;

/** A mean over futures with its 95 % interval; the interval is null of one future. */
export interface PairedDifference {
  readonly mean: number;
  readonly low: number | null;
  readonly high: number | null;
}

export interface Advice {
  /** Seeds for each of the sowings. */
  readonly seeds: readonly number[];
  /** Heads picked until the last of these sowings has been picked: mean with the plan's seeds and with these. */
  readonly planned: number;
  readonly advised: number;
  /** Of the futures, pair by pair: advised less planned. */
  readonly difference: PairedDifference;
  /** `more` heads (1 % at least); as many from `fewer seeds`; or `keep` the plan's seeds, which are as good or better. */
  readonly verdict: 'more' | 'fewer seeds' | 'keep';
}

/** Futures that are run at most to find the list. */
export function trialRuns(futures: number): number {
  return (1 + MULTIPLES.length) * Math.min(FUTURES, futures);
}

/**
 * @param sowings at least one
 * @param planned picks in each future with the plan's own seeds
 * @param counting weeks in which heads are counted: until the last of the sowings has been picked
 * @returns null if `pause` said to stop
 */
export async function advise(
  plan: Plan,
  sowings: readonly ComingSowing[],
  planned: readonly number[],
  setup: FuturesSetup,
  counting: WeeksLook,
): Promise<Advice | null> {
  const few = Math.min(FUTURES, planned.length);
  const bare = withoutSowings(plan);
  const seen = await runFutures(bare, few, setup, 'load', null);
  if (seen === null) return null;
  const load = new Load(bare, seen);
  const fitting = seedsThatFit(plan, sowings, load);
  const picksWith = async (seeds: readonly number[], futures: number): Promise<number[] | null> => {
    const heads = await runFutures(withSeeds(plan, sowings, seeds), futures, setup, 'heads', counting);
    return heads && picksIn(heads);
  };
  const lists = MULTIPLES.map((multiple) => wholeSeeds(sowings, fitting, multiple));
  const tried: { seeds: readonly number[]; picks: readonly number[] }[] = [];
  for (const [seeds] of groupedBy(lists, (list) => list.join(' ')).values()) {
    const picks = await picksWith(seeds, few);
    if (picks === null) return null;
    tried.push({ seeds, picks });
  }
  const best = tried.reduce((most, one) => (meanOf(one.picks) > meanOf(most.picks) ? one : most));
  const { seeds } = tried.find(({ picks }) => {
    const { low } = differenceOf(picks, best.picks);
    return low === null || low <= 0;
  })!;
  const advised = await picksWith(seeds, planned.length);
  if (advised === null) return null;
  const difference = differenceOf(planned, advised);
  return {
    seeds,
    planned: meanOf(planned),
    advised: meanOf(advised),
    difference,
    verdict: verdictOf(difference, meanOf(planned), sumOf(seeds) / sumOf(sowings.map((one) => one.planned))),
  };
}

/** b less a, future by future. */
export function differenceOf(a: readonly number[], b: readonly number[]): PairedDifference {
  const differences = a.map((value, i) => b[i]! - value);
  return a.length < 2 ? { mean: meanOf(differences), low: null, high: null } : intervalOfMean(differences);
}

/** @param share of the plan's seeds */
function verdictOf({ mean: more, low }: PairedDifference, planned: number, share: number): Advice['verdict'] {
  if (low === null) return 'keep';
  if (low > 0 && more >= MORE * planned) return 'more';
  return low >= -AS_MANY * planned && share < FEWER ? 'fewer seeds' : 'keep';
}
