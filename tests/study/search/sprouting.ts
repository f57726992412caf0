/**
 * Seasons of the lines of claim.test.ts without the line: all that is left to luck in them is which seeds sprout.
 *
 * Their seeds have a hole each and need a week to the day, and somebody is there on each Monday: so what sprouts of a sowing is
 * picked a week later, or from then on every week if it is cut. The draws are the line's own, so the picks are too (claim.test.ts
 * holds them against the line); they come five times sooner, and a claim about 500 searches takes a million seasons.
 */

import type { Draws } from '../../../sim/models/growth.js';
import { planDraws } from '../../../sim/models/line/line.js';
import type { Plan } from '../../../sim/models/plan.js';
import type { WorkerPool } from '../../../sim/seasons/worker-pool.js';
import type { Workload } from '../../../sim/seasons/workload.js';

export class SproutingSeasons implements WorkerPool {
  readonly concurrency = 1;
  readonly #workload: Workload;
  /** Seeds that are sown at most in a season of any plan. */
  readonly #most: number;
  /** By germination: plans with the same share their luck. */
  readonly #kept = new Map<number, { readonly draws: Draws; readonly seasons: Map<number, Uint8Array> }>();

  constructor(workload: Workload) {
    this.#workload = workload;
    this.#most = Math.max(
      ...workload.jobs.map(({ plan }) => sowingOf(plan).seeds * sowingOf(plan).days.length),
    );
  }

  async weeks(job: number, first: number, count: number): Promise<Float64Array> {
    const { plan } = this.#workload.jobs[job]!;
    const picks = new Float64Array(count * plan.weeks);
    for (let i = 0; i < count; i++) {
      addPicks(picks.subarray(i * plan.weeks, (i + 1) * plan.weeks), plan, this.#sproutsOf(plan, first + i));
    }
    return picks;
  }

  async tally(): Promise<never> {
    throw new Error('a search asks for weeks');
  }

  async close(): Promise<void> {}

  /** 1 for each seed that sprouts, in the order of sowing. */
  #sproutsOf(plan: Plan, season: number): Uint8Array {
    const { germination } = plan.crops[0]!;
    const kept = this.#kept.get(germination) ?? { draws: planDraws(plan)(0, 0), seasons: new Map() };
    this.#kept.set(germination, kept);
    const known = kept.seasons.get(season);
    if (known !== undefined) return known;
    const { draws } = kept;
    draws.start(this.#workload.seed, season);
    const sprouts = new Uint8Array(this.#most);
    for (let i = 0; i < sprouts.length; i++) sprouts[i] = draws.sprouts[draws.take()]!;
    kept.seasons.set(season, sprouts);
    return sprouts;
  }
}

/** Add what a season brings to its weeks. */
function addPicks(picks: Float64Array, plan: Plan, sprouts: Uint8Array): void {
  const { days, seeds } = sowingOf(plan);
  const { cuts } = plan.crops[0]!;
  for (let s = 0; s < days.length; s++) {
    let sprouted = 0;
    for (let i = s * seeds; i < (s + 1) * seeds; i++) sprouted += sprouts[i]!;
    const week = days[s]! / 7 + 1;
    for (let cut = 0; cut < cuts && week + cut < picks.length; cut++) picks[week + cut]! += sprouted;
  }
}

function sowingOf({ crops }: Plan) {
  const { sowing } = crops[0]!;
  if (sowing.kind !== 'due') throw new RangeError('the seeds of these lines are sown on days');
  return sowing;
}
