/**
 * The cheapest plan that reaches a goal: so many heads a week, in a given share of the weeks.
 *
 * The candidates are ordered by what they cost, every one gets a few first seasons, and then they are judged in this order, season
 * by season (selection.ts), until one meets the goal and some runners-up are found. Poor plans are recognised after the first seasons.
 * The plan that is found is the cheapest that meets the goal, with a stated probability (budget.ts); plans whose share of
 * weeks is within `near` of the goal may go either way.
 */

import * as z from 'zod';
import type { Estimate } from '../../seasons/sections.js';
import { mostPicks } from '../../seasons/workload.js';
import type { Shard, Study } from '../study.js';
import { count, dataFault, type Form, histogramForm, totalOf } from '../unpack.js';
import type { SearchGoal } from './budget.js';
import type { CandidateResult, Tie } from './candidate-test.js';
import type { Candidate } from './candidates.js';
import { carryOutSearch, placesIn } from './carry-out.js';
import { OBSTACLES, type Obstacles } from './obstacles.js';
import { concludeSearch, type SearchResult } from './result.js';
import type { CountedSeasons } from './season-counter.js';
import { type Search, setUpSearch } from './setup.js';

/**
 * @param candidates at least 1, all with seasons of the same length
 * @throws RangeError if no week counts (see weeks.ts), or if the candidates have no cost of the kind that is to be least
 */
export function searchStudy(
  candidates: readonly Candidate[],
  goal: SearchGoal,
  seed: number,
): Study<readonly CandidateResult[], SearchResult> {
  const search = setUpSearch(candidates, goal, seed);
  return {
    workload: search.workload,
    carryOut: (pool, shard, pause) => carryOutSearch(search, pool, shard, pause),
    pack: (trials) => trials,
    faultOf: (part, shard) => dataFault(resultsForm(search, shard), part),
    unpack: (parts) => (parts as readonly CandidateResult[][]).flat(),
    conclude: (trials) => concludeSearch(search, trials),
  };
}

const relief = z.object({ weeks_met: z.number(), heads_a_week: z.number(), meets: z.boolean() });

const obstacles = z.object({
  seasons: z.int().min(1),
  alone: z.array(z.object({ taken_away: z.enum(OBSTACLES), ...relief.shape })),
  together: relief,
  in_the_way: z.array(z.enum(OBSTACLES)),
  one_is_enough: z.boolean(),
} satisfies Form<Obstacles>);

const estimate = z.object({
  mean: z.number(),
  low: z.number().nullable(),
  high: z.number().nullable(),
} satisfies Form<Estimate>);

/** What a shard packs: its candidates, each once, in the order of costs. */
function resultsForm(search: Search, shard: Shard): z.ZodType<CandidateResult[]> {
  const forms = placesIn(search, shard).map((place) => resultForm(search, place));
  return z.tuple(forms as [z.ZodType<CandidateResult>]) as z.ZodType<CandidateResult[]>;
}

function resultForm({ goal, ranked, counting }: Search, place: number): z.ZodType<CandidateResult> {
  const { plan } = ranked[place]!.candidate;
  const weeks = counting.weeks - counting.from;
  const most = mostPicks(plan);
  const shape = {
    good: z.array(count.max(weeks)).min(goal.first),
    picks: histogramForm(most),
  } satisfies Form<CountedSeasons>;
  const whole = ({ good, picks }: CountedSeasons): boolean => totalOf(picks) === good.length * weeks;
  const counted = z.object(shape).refine(whole);
  return z.object({
    place: z.literal(place),
    verdict: z.enum(['meets', 'misses']).nullable(),
    first: counted.refine(({ good }) => good.length === goal.first),
    judged: counted.nullable(),
    tie: z
      .object({ ...shape, picked: z.boolean() } satisfies Form<Tie>)
      .refine(whole)
      .nullable(),
    obstacles: obstacles.nullable(),
    present: counted.nullable(),
    cost_a_head: goal.least === 'cost' ? estimate.nullable().optional() : z.undefined().optional(),
  } satisfies Form<CandidateResult>);
}
