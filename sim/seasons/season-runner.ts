/** One who runs seasons: holds the plans of a workload and does one piece of it after another. */

import type { Season } from '../models/ledger.js';
import { Line } from '../models/line/line.js';
import { holesOfLine, type Plan } from '../models/plan.js';
import { applied, type Change, cannotMatter } from './changes.js';
import type { PauseAfterRuns, WorkerPool } from './worker-pool.js';
import { type Chunk, changesTried, type Workload } from './workload.js';
import { type TrialSeason, WorkloadTallies } from './workload-tallies.js';

/** Holes of all lines together that are kept for the next piece; beyond it they are made anew each time. */
const KEPT_HOLES = 500_000;

/** Everything on this thread, one piece after another. */
export class SeasonRunner implements WorkerPool {
  readonly concurrency = 1;
  readonly #workload: Workload;
  readonly #changes: readonly (readonly Change[])[];
  readonly #lines = new Map<string, Line>();
  #holes = 0;

  constructor(workload: Workload) {
    this.#workload = workload;
    this.#changes = workload.jobs.map(changesTried);
  }

  /**
   * Run and tally the seasons of a piece.
   * @returns null if stopped before the piece was done: what it had is dropped, so that all jobs keep the same seasons
   */
  async tally(chunk: Chunk, step?: PauseAfterRuns): Promise<WorkloadTallies | null> {
    const { seed, sections, jobs } = this.#workload;
    const gathered = new WorkloadTallies(this.#workload);
    const section = chunk.first % sections;
    for (const [j, job] of jobs.entries()) {
      for (let k = 0; k < chunk.count; k++) {
        const season = chunk.first + k * sections;
        if (season >= job.seasons) break;
        const result = this.#line(`${j}`, () => job.plan).run(seed, season);
        gathered.section(j, section).add(result);
        const more = goOn(step);
        if (more !== true && !(await more)) return null;
        if (season < job.trials) {
          const trial = await this.#trial(j, season, result, step);
          if (trial === null) return null;
          gathered.addTrial(j, trial);
        }
      }
    }
    return gathered;
  }

  /**
   * Run seasons of one job and keep the picks of each of their weeks.
   * @returns week w of the i-th season at i x weeks + w; null if stopped
   */
  async weeks(j: number, first: number, count: number, step?: PauseAfterRuns): Promise<Float64Array | null> {
    const { plan } = this.#workload.jobs[j]!;
    const weeks = new Float64Array(count * plan.weeks);
    const line = this.#line(`${j}`, () => plan);
    for (let i = 0; i < count; i++) {
      weeks.set(line.run(this.#workload.seed, first + i).weekPicks, i * plan.weeks);
      const more = goOn(step);
      if (more !== true && !(await more)) return null;
    }
    return weeks;
  }

  async close(): Promise<void> {}

  async #trial(
    j: number,
    season: number,
    asItIs: Season,
    step?: PauseAfterRuns,
  ): Promise<TrialSeason | null> {
    const { plan } = this.#workload.jobs[j]!;
    const { seed } = this.#workload;
    // Of a trial only picks are kept.
    const bare = { ...plan, physical: null };
    const base = [...asItIs.weekPicks];
    const picks = [base];
    for (const [c, change] of this.#changes[j]!.entries()) {
      if (cannotMatter(change, plan, asItIs)) picks.push(base);
      else picks.push([...this.#line(`${j} ${c}`, () => applied(bare, change)).run(seed, season).weekPicks]);
      const more = goOn(step);
      if (more !== true && !(await more)) return null;
    }
    return { season, picks };
  }

  /** The line of a name, kept from one season to the next while they fit. */
  #line(name: string, planOf: () => Plan): Line {
    const known = this.#lines.get(name);
    if (known !== undefined) return known;
    const plan = planOf();
    const holes = holesOfLine(plan);
    if (this.#holes + holes > KEPT_HOLES) {
      this.#lines.clear();
      this.#holes = 0;
    }
    const line = new Line(plan);
    this.#lines.set(name, line);
    this.#holes += holes;
    return line;
  }
}

/** true if there is nothing to wait for: then nobody waits, not even for the blink of an `await`. */
function goOn(step: PauseAfterRuns | undefined): Promise<boolean> | true {
  return step?.(1) ?? true;
}
