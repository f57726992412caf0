/**
 * Runs the seasons of a search: the first ones of every candidate, then more of those that have to be judged, then those that tell
 * plans of one price apart.
 *
 * Several hands run ahead of the order, so candidates may be judged that need not be, and seasons run that no verdict takes. What
 * counts is found afterwards from the verdicts (search-result.ts), so that it does not depend on how many hands there were.
 */

import type { Crew } from '../../seasons/crew.js';
import type { Pause } from '../../seasons/gather.js';
import type { Shard } from '../study.js';
import { toJudge, type VerdictOf } from './order.js';
import type { Search } from './setup.js';
import { tellApart } from './ties.js';
import { Trial, type TrialData } from './trial.js';
import { Work } from './work.js';

/** Seasons of a candidate that are run at a time while it is judged. */
const SHORTEST_STINT = 10;
const LONGEST_STINT = 200;

/** @returns what is known of each candidate of the shard that had all its first seasons, in the order of costs */
export async function carryOutSearch(
  search: Search,
  crew: Crew,
  shard: Shard,
  pause?: Pause,
): Promise<TrialData[]> {
  const { goal, ranked, budget, counting } = search;
  const work = new Work(crew, pause);
  // All plans of a price are in one shard, which can tell them apart.
  const places = [...ranked.keys()].filter((place) => ranked[place]!.price % shard.n === shard.k - 1);
  const trials = new Map(places.map((place) => [place, new Trial(place, budget.standard, counting)]));
  const toJudgeBy = (verdictOf: VerdictOf): Trial[] =>
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
  return known(trials);
}

function known(trials: ReadonlyMap<number, Trial>): TrialData[] {
  return [...trials.values()].flatMap((trial) => trial.toData() ?? []);
}

/** The first seasons of every candidate. */
async function screen(work: Work, trials: readonly Trial[], first: number): Promise<void> {
  let next = 0;
  await work.together(
    () => trials[next++],
    async (trial) => {
      const picks = await work.run(trial.place, 0, first);
      if (picks !== null) trial.add(picks, first);
    },
  );
}

/** @param needed candidates that need a verdict, in order, as far as is known at the time */
async function judge(work: Work, needed: () => readonly Trial[]): Promise<void> {
  const begun = new Set<Trial>();
  await work.together(
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
