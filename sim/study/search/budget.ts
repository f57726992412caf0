/**
 * How the probability of a wrong pick is dealt out among the judgements of a search.
 *
 * Every candidate's verdict may be wrong with probability beta; by Bonferroni's inequality all are right with at least
 * 1 - k beta, whatever luck they share. If no two plans cost the same, k beta is all of alpha = 1 - confidence. If some do, it is half
 * of it, and the other half is for telling the plans of one price apart: dealt evenly among the prices that several plans
 * have, then evenly among the rivals of a price. So it does not matter at which price the search ends, nor which of the plans
 * there meet the goal.
 *
 * Plans of one price are told apart by elimination (selection-elimination.ts), which takes its variances from the first
 * seasons. A difference that comes in rare seasons may be missing there, and would be taken for none. So there are as many first seasons
 * that a difference of means of `near` or more hides there with at most half of the rival's probability: differences of shares
 * are at most 1, so it shows in one season of 1 / near or more often, and (1 - near)^n is the probability that it does not in n.
 */

import type { CostKind, RankedCandidate } from './candidates.js';
import { priceSizes } from './candidates.js';
import type { EliminationOptions } from './selection-elimination.js';
import type { TestDesign } from './sequential-test.js';

/** What a search is asked for; with what the library takes where it is left out. */
export interface SearchGoal {
  /** Heads a week that are the goal, at least 1. */
  readonly heads: number;
  /** Share of the weeks that must bring them, from 0.01 to 1. Left out: 0.9. */
  readonly weeksMet: number;
  /** What is to be spent least of: `holes`, `seeds` or `light`. Left out: holes. */
  readonly least: CostKind;
  /** Probability that the right plan is found, from 0.6 to 0.9999. Left out: 0.95. */
  readonly confidence: number;
  /** Plans whose share of weeks is so near the goal may go either way, from 0.005 to 0.2. Left out: 0.02. */
  readonly near: number;
  /** First seasons, of every plan, 5 to 1000. Left out: 20. */
  readonly first: number;
  /** How many of the next cheapest plans to find too, at most 20. Left out: 3. */
  readonly runners: number;
}

export interface Budget {
  /** For the verdict on each plan. */
  readonly design: TestDesign;
  /** For telling apart `meeting` plans that meet the goal, of `size` plans of one price. */
  tie(size: number, meeting: number): EliminationOptions;
}

export function budgetOf(ranked: readonly RankedCandidate[], goal: SearchGoal): Budget {
  const { weeksMet: q, near: eps, first: n0, confidence } = goal;
  const alpha = 1 - confidence;
  const shared = priceSizes(ranked).filter((size) => size > 1).length;
  const verdicts = shared > 0 ? alpha / 2 : alpha;
  return {
    design: { q, eps, beta: verdicts / ranked.length, n0 },
    tie: (size, meeting) => {
      const rival = alpha / 2 / shared / (size - 1);
      return {
        k: meeting,
        delta: eps,
        // Each pair gets half of what its rival has; the other half is for what the first seasons hide.
        alpha: (rival / 2) * (meeting - 1),
        n0: Math.max(n0, Math.ceil(Math.log(rival / 2) / Math.log1p(-eps))),
      };
    },
  };
}
