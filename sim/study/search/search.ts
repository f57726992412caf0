/**
 * The cheapest plan that reaches a goal: so many heads a week, in a given share of the weeks.
 *
 * The candidates are ordered by what they cost, every one gets a few first seasons, and then they are judged in this order, season
 * by season (selection.ts), until one meets the goal and some runners-up are found. Poor plans are recognised after the first seasons.
 * The plan that is found is the cheapest that meets the goal, with a stated probability (budget.ts); plans whose share of
 * weeks is within `near` of the goal may go either way.
 */

import * as z from 'zod';
import { failure, type Result, success } from '../../models/result.js';
import type { Study } from '../study.js';
import { type Form, unpacked } from '../unpack.js';
import type { SearchGoal } from './budget.js';
import type { CandidateResult } from './candidate-test.js';
import type { Candidate } from './candidates.js';
import { carryOutSearch } from './carry-out.js';
import { OBSTACLES, type Obstacles } from './obstacles.js';
import { concludeSearch, type SearchResult } from './result.js';
import { setUpSearch } from './setup.js';

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
    unpack: (parts) => joined(parts, candidates.length),
    conclude: (trials) => concludeSearch(search, trials),
  };
}

const counted = z.object({ good: z.array(z.number()), picks: z.array(z.number()) });

const relief = z.object({ weeks_met: z.number(), heads_a_week: z.number(), meets: z.boolean() });

const obstacles = z.object({
  seasons: z.int().min(1),
  alone: z.array(z.object({ taken_away: z.enum(OBSTACLES), ...relief.shape })),
  together: relief,
  in_the_way: z.array(z.enum(OBSTACLES)),
  one_is_enough: z.boolean(),
} satisfies Form<Obstacles>);

const results: z.ZodType<CandidateResult[]> = z.array(
  z.object({
    place: z.int().min(0),
    verdict: z.enum(['meets', 'misses']).nullable(),
    first: counted,
    judged: counted.nullable(),
    tie: counted.extend({ picked: z.boolean() }).nullable(),
    obstacles: obstacles.nullable(),
    present: counted.nullable(),
  } satisfies Form<CandidateResult>),
);

/** @returns a fault unless the parts hold every candidate once */
function joined(parts: readonly unknown[], candidates: number): Result<CandidateResult[], string> {
  const trials: CandidateResult[] = [];
  for (const part of parts) {
    const read = unpacked(results, part);
    if (!read.ok) return read;
    trials.push(...read.value);
  }
  const places = new Set(trials.map(({ place }) => place));
  for (let place = 0; place < candidates; place++) {
    if (!places.has(place)) return failure([`plan ${place + 1} of ${candidates} is not there`]);
  }
  if (trials.length > candidates) return failure([`there are ${trials.length} plans, not ${candidates}`]);
  return success(trials);
}
