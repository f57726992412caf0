/** Batches that lost far more plants than the plan expects. */

import { chanceOfAtLeast } from '../../engine/binomial.js';
import * as route from '../../models/route.js';
import type { CohortsByStage } from '../history/cohorts.js';
import type { LoggedSeason } from '../history/logged-season.js';

/** What a batch lost in a stage beyond the plan's expectation. */
export interface FailedBatch {
  /** Place of the batch. */
  readonly batch: number;
  readonly stage: number;
  /** Plants (seeds in the first stage) that came into the stage, how many of them were lost there, how many were to be expected. */
  readonly came: number;
  readonly lost: number;
  readonly expected: number;
  /** First and last day on which losses were logged [d]. */
  readonly from: number;
  readonly to: number;
}

/** So rare that the plan's losses do not explain it: once in this many batches. */
const ONCE_IN = 1000;
/** Fewer plants than this are not worth a word. */
const FEWEST = 2;

/**
 * Batches whose losses (failed and dead, not thrown away) in a stage are at least 2 above the expectation, and so many
 * that losses with the plan's probability would reach them less than once in 1000 batches (binomial). In the order of
 * their sowing.
 */
export function failedBatches({ plan, batches }: LoggedSeason, cohorts: CohortsByStage): FailedBatch[] {
  const failed: FailedBatch[] = [];
  plan.stages.forEach((_, s) => {
    const tallies = batches.map(() => ({ came: 0, lost: 0, from: Infinity, to: 0 }));
    for (const cohort of cohorts[s]!) {
      const tally = tallies[cohort.batch]!;
      tally.came += cohort.count;
      for (const { to, count, end } of cohort.stays) {
        if (end !== 'failed' && end !== 'died') continue;
        tally.lost += count;
        tally.from = Math.min(tally.from, to);
        tally.to = Math.max(tally.to, to);
      }
    }
    tallies.forEach((tally, batch) => {
      const crop = plan.crops[batches[batch]!.crop]!;
      const { loss } = crop.stages[s]!;
      const chance = s === route.first(crop) ? 1 - crop.germination * (1 - loss) : loss;
      const expected = tally.came * chance;
      if (tally.lost < expected + FEWEST) return;
      if (chanceOfAtLeast(tally.lost, tally.came, chance) * ONCE_IN < 1)
        failed.push({ batch, stage: s, expected, ...tally });
    });
  });
  return failed.sort((a, b) => a.batch - b.batch || a.stage - b.stage);
}
