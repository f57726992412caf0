/** A search, set up: the order of its candidates, the weeks that count, the probabilities, and the seasons to run. */

import type { Workload } from '../../seasons/workload.js';
import { type Budget, budgetOf, type SearchGoal } from './budget.js';
import { type Candidate, priceSizes, type RankedCandidate, rank } from './candidates.js';
import type { CountingRule } from './season-counter.js';
import { firstCountedWeek } from './weeks.js';

export interface Search {
  readonly goal: SearchGoal;
  /** The cheapest first. */
  readonly ranked: readonly RankedCandidate[];
  /** Plans of each price. */
  readonly sizes: readonly number[];
  readonly counting: CountingRule;
  readonly budget: Budget;
  /** One job for each candidate, in the same order. */
  readonly workload: Workload;
}

/**
 * @param candidates at least 1, all with seasons of the same length
 * @throws RangeError if no week counts, or if the candidates have no cost of the kind that is to be least
 */
export function setUpSearch(candidates: readonly Candidate[], goal: SearchGoal, seed: number): Search {
  const plans = candidates.map(({ plan }) => plan);
  const from = firstCountedWeek(plans);
  const { weeks } = plans[0]!;
  if (!(from < weeks)) throw new RangeError(`no week counts: ${from} of ${weeks}`);
  const ranked = rank(candidates, goal.least);
  return {
    goal,
    ranked,
    sizes: priceSizes(ranked),
    counting: { heads: goal.heads, from, weeks },
    budget: budgetOf(ranked, goal),
    workload: {
      seed,
      sections: 1,
      jobs: ranked.map(({ candidate }) => ({ plan: candidate.plan, seasons: goal.first, trials: 0 })),
    },
  };
}
