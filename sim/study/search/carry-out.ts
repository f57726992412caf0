/**
 * Runs the seasons of a search: the first ones of every candidate, then more of those that have to be judged, then those that tell
 * plans of one price apart.
 *
 * Several hands run ahead of the order, so candidates may be judged that need not be, and seasons run that no verdict takes. What
 * counts is found afterwards from the verdicts (result.ts), so that it does not depend on how many hands there were.
 */

import type { Pause } from '../../seasons/gather.js';
import type { WorkerPool } from '../../seasons/worker-pool.js';
import type { Shard } from '../study.js';
import { CandidateRunner } from './candidate-runner.js';
import { type CandidateResult, CandidateTest } from './candidate-test.js';
import { obstaclesOf } from './obstacles.js';
import { toJudge, type VerdictOf } from './order.js';
import { presentSeasons } from './present.js';
import { concludeSearch } from './result.js';
import { costAHead } from './season-costs.js';
import type { Search } from './setup.js';
import { tellApart } from './ties.js';

/** Seasons of a candidate that are run at a time while it is judged. */
const SHORTEST_STINT = 10;
const LONGEST_STINT = 200;

/** @returns what is known of each candidate of the shard that had all its first seasons, in the order of costs */
export async function carryOutSearch(
  search: Search,
  pool: WorkerPool,
  shard: Shard,
  pause?: Pause,
): Promise<CandidateResult[]> {
  const { goal, ranked, budget, counting } = search;
  const work = new CandidateRunner(pool, pause);
  const places = placesIn(search, shard);
  const trials = new Map(places.map((place) => [place, new CandidateTest(place, budget.design, counting)]));
  const toJudgeBy = (verdictOf: VerdictOf): CandidateTest[] =>
    [...toJudge(places, (place) => ranked[place]!.price, verdictOf, 1 + goal.runners)].map(
      (place) => trials.get(place)!,
    );

  work.all = places.length * goal.first;
  await screen(work, [...trials.values()], goal.first);
  if (work.stopped) return known(trials);

  work.all =
    work.done + toJudgeBy((place) => trials.get(place)!.guess).reduce((sum, trial) => sum + trial.left, 0);
  await judge(work, () => toJudgeBy((place) => trials.get(place)!.verdict));
  if (!work.stopped) await tellApart(search, work, [...trials.values()]);
  const results = known(trials);
  if (work.stopped || results.length === 0) return results;
  // Of the plans of the shard; that of the whole search is among those of all shards, for they hold whole prices.
  const { best, nearest } = concludeSearch(search, results)!;
  const named = (best ?? nearest)!;
  const place = named.place - 1;
  const obstacles = best === null ? await obstaclesOf(search, place, pause) : null;
  const present = await presentSeasons(search, place, named.seasons, pause);
  const told = results.map((result) => (result.place === place ? { ...result, obstacles, present } : result));
  return goal.least === 'cost' ? withCosts(search, told, pause) : told;
}

/** With what a head costs of each plan that the search may name, whatever other shards find. */
async function withCosts(
  search: Search,
  results: readonly CandidateResult[],
  pause?: Pause,
): Promise<CandidateResult[]> {
  const { best, runners_up: runners, nearest } = concludeSearch(search, results)!;
  const first = results.filter(({ verdict }) => verdict === 'meets').slice(0, 1 + search.goal.runners);
  const places = new Set(first.map(({ place }) => place));
  for (const plan of [best, ...runners, nearest]) if (plan !== null) places.add(plan.place - 1);
  const costed: CandidateResult[] = [];
  for (const result of results) {
    const { plan } = search.ranked[result.place]!.candidate;
    const cost = places.has(result.place) ? await costAHead(plan, search.workload.seed, pause) : null;
    costed.push({ ...result, cost_a_head: cost });
  }
  return costed;
}

/** The candidates of a shard, in the order of costs: all plans of a price are in one, which can tell them apart. */
export function placesIn({ ranked }: Search, { k, n }: Shard): number[] {
  return [...ranked.keys()].filter((place) => ranked[place]!.price % n === k - 1);
}

function known(trials: ReadonlyMap<number, CandidateTest>): CandidateResult[] {
  return [...trials.values()].flatMap((trial) => trial.toData() ?? []);
}

/** The first seasons of every candidate. */
async function screen(work: CandidateRunner, trials: readonly CandidateTest[], first: number): Promise<void> {
  let next = 0;
  await work.inParallel(
    () => trials[next++],
    async (trial) => {
      const picks = await work.run(trial.place, 0, first);
      if (picks !== null) trial.add(picks, first);
    },
  );
}

/** @param needed candidates that need a verdict, in order, as far as is known at the time */
async function judge(work: CandidateRunner, needed: () => readonly CandidateTest[]): Promise<void> {
  const begun = new Set<CandidateTest>();
  await work.inParallel(
    () => {
      const next = needed().find((trial) => trial.verdict === null && !begun.has(trial));
      if (next !== undefined) begun.add(next);
      return next;
    },
    async (trial) => {
      while (trial.verdict === null && !work.stopped) {
        const stint = Math.min(LONGEST_STINT, Math.max(SHORTEST_STINT, Math.ceil(trial.left / 2)));
        const picks = await work.run(trial.place, trial.seasons, stint);
        if (picks !== null) trial.add(picks, stint);
      }
    },
  );
}
