/**
 * Seasons of the lines of claim.test.ts without the line: all that is left to luck in them is which seeds sprout.
 *
 * Their seeds have a hole each and need a week to the day, and somebody is there on each Monday: so what sprouts of a sowing is
 * picked a week later, or from then on every week if it is cut. The draws are the line's own, so the picks are too (claim.test.ts
 * holds them against the line); they come five times sooner, and a claim about 500 searches takes a million seasons.
 */

import { planDraws } from '../../../sim/models/line/line.js';
import type { Plan } from '../../../sim/models/plan.js';
import type { WorkerPool } from '../../../sim/seasons/worker-pool.js';
import type { Workload } from '../../../sim/seasons/workload.js';

export class SproutingSeasons implements WorkerPool {
  readonly concurrency = 1;
  readonly #workload: Workload;

  constructor(workload: Workload) {
    this.#workload = workload;
  }

  async weeks(job: number, first: number, count: number): Promise<Float64Array> {
    const { seed, jobs } = this.#workload;
    const { plan } = jobs[job]!;
    const draws = planDraws(plan)(0, 0);
    const picks = new Float64Array(count * plan.weeks);
    for (let i = 0; i < count; i++) {
      draws.start(seed, first + i);
      addPicks(
        picks.subarray(i * plan.weeks, (i + 1) * plan.weeks),
        plan,
        () => draws.sprouts[draws.take()]!,
      );
    }
    return picks;
  }

  async tally(): Promise<never> {
    throw new Error('a search asks for weeks');
  }

  async close(): Promise<void> {}
}

/** Add what a season brings to its weeks. @param next 1 if the next seed sprouts */
function addPicks(picks: Float64Array, { crops }: Plan, next: () => number): void {
  const { sowing, cuts } = crops[0]!;
  if (sowing.kind !== 'due') throw new RangeError('the seeds of these lines are sown on days');
  for (const day of sowing.days) {
    let sprouted = 0;
    for (let i = 0; i < sowing.seeds; i++) sprouted += next();
    const week = day / 7 + 1;
    for (let cut = 0; cut < cuts && week + cut < picks.length; cut++) picks[week + cut]! += sprouted;
  }
}
