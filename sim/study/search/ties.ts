/** Of plans of one price that meet the goal, the one that meets it in most weeks: by elimination, season by season. */

import type { CandidateRunner } from './candidate-runner.js';
import type { CandidateTest } from './candidate-test.js';
import { SeasonCounter } from './season-counter.js';
import { Elimination } from './selection-elimination.js';
import type { Search } from './setup.js';

/** Seasons that are run at a time. */
const STINT = 10;

/**
 * Tell apart the plans of the first price at which a plan meets the goal, and mark the best. If only one does there is nothing to do.
 * @param trials in the order of costs, judged as far as is needed
 */
export async function tellApart(
  search: Search,
  work: CandidateRunner,
  trials: readonly CandidateTest[],
): Promise<void> {
  const { ranked, sizes, budget, counting } = search;
  const meeting = trials.filter(({ verdict }) => verdict === 'meets');
  const price = meeting.length === 0 ? null : ranked[meeting[0]!.place]!.price;
  const equals = meeting.filter(({ place }) => ranked[place]!.price === price);
  if (price === null || equals.length < 2) return;

  const options = budget.tie(sizes[price]!, equals.length);
  const elimination = new Elimination(options);
  const rivals = equals.map((trial) => ({ trial, tally: new SeasonCounter(counting, trial.soFar()) }));
  const counted = counting.weeks - counting.from;
  for (let row = 0, pick: number | null = null; pick === null; row++) {
    // The verdict may have taken more seasons than have been compared yet; then there are no more to run.
    const short = elimination.left.map((i) => rivals[i]!).filter(({ tally }) => tally.good.length <= row);
    const upTo = Math.max(options.n0, row + STINT);
    await work.inParallel(
      () => short.pop(),
      async ({ trial, tally }) => {
        const count = upTo - tally.good.length;
        const picks = await work.run(trial.place, tally.good.length, count);
        for (let i = 0; picks !== null && i < count; i++) tally.add(picks, i);
      },
    );
    if (work.stopped) return;
    pick = elimination.add(rivals.map(({ tally }) => (tally.good[row] ?? 0) / counted));
    if (pick !== null) {
      for (const [i, { trial, tally }] of rivals.entries())
        trial.tie = { ...tally.toData(), picked: i === pick };
    }
  }
}
