/**
 * The seasons of one plan, run bit by bit: whoever is interrupted goes on later from where he was, and no season is run twice.
 *
 * They are the same seasons, dealt to the same sections, as those of a study (see sim/seasons/workload.ts).
 */

import type { Season } from '../../../sim/models/ledger.js';
import { Line } from '../../../sim/models/line/line.js';
import type { Plan } from '../../../sim/models/plan.js';
import { defaultSeasons } from '../../../sim/seasons/how-many.js';
import { SeasonRunner } from '../../../sim/seasons/season-runner.js';
import { sectionsFor, type Workload } from '../../../sim/seasons/workload.js';
import { type TrialSeason, WorkloadTallies } from '../../../sim/seasons/workload-tallies.js';
import { type Film, FilmRecorder } from '../../../sim/study/film/film.js';

/** Asked after each season. null: go on. A promise: wait for it, and stop if it gives false. */
export type Look = () => Promise<boolean> | null;

export class PlanSeasons {
  readonly plan: Plan;
  /** Seasons that are run in all. */
  readonly all: number;
  /** Seasons that were run: the first ones. */
  done = 0;
  readonly #workload: Workload;
  readonly #gathered: WorkloadTallies;
  /** What had been gathered after so many seasons, where that was asked for. */
  readonly #stages = new Map<number, WorkloadTallies | null>();
  readonly #tried: TrialSeason[] = [];
  #line: Line | null = null;

  constructor(plan: Plan, all = defaultSeasons(plan)) {
    this.plan = plan;
    this.all = all;
    this.#workload = {
      seed: plan.seed,
      sections: sectionsFor(all),
      jobs: [{ plan, seasons: all, trials: 0 }],
    };
    this.#gathered = new WorkloadTallies(this.#workload);
  }

  /** Remember what there is after so many seasons. @returns false if more were run already */
  remember(seasons: number): boolean {
    if (seasons === this.all || this.#stages.has(seasons)) return true;
    if (this.done > seasons) return false;
    this.#stages.set(seasons, null);
    this.#keep();
    return true;
  }

  /** Film a season; where that is the next one to be run, it counts among them. */
  film(season: number): Film {
    const recorder = new FilmRecorder(this.plan);
    this.#line ??= new Line(this.plan);
    const result = this.#line.run(this.plan.seed, season, recorder);
    if (season === this.done && this.done < this.all) this.#book(result);
    this.#rest();
    return recorder.film();
  }

  /**
   * Run more seasons, at least one.
   * @param to as many in all @param until moment after which no other is begun, as `performance.now()` tells it
   * @returns false if it was told to stop
   */
  async run(to: number, until: number, look: Look): Promise<boolean> {
    let goOn = true;
    if (this.done < to) this.#line ??= new Line(this.plan);
    while (goOn && this.done < to) {
      this.#book(this.#line!.run(this.plan.seed, this.done));
      const more = look();
      if (more !== null) goOn = await more;
      if (performance.now() > until) break;
    }
    this.#rest();
    return goOn;
  }

  /** Run the first seasons again with small changes. @returns false if it was told to stop */
  async try(trials: number, look: Look): Promise<boolean> {
    if (this.#tried.length >= trials) return true;
    const { plan } = this;
    const runner = new SeasonRunner({
      seed: plan.seed,
      sections: 1,
      jobs: [{ plan, seasons: trials, trials }],
    });
    while (this.#tried.length < trials) {
      const part = await runner.tally({ first: this.#tried.length, count: 1 }, look);
      if (part === null) return false;
      this.#tried.push(...part.trials(0));
    }
    return true;
  }

  /** What was gathered after so many seasons: all that there are, or a number that was to be remembered. */
  after(seasons: number): WorkloadTallies {
    return seasons === this.done ? this.#gathered : this.#stages.get(seasons)!;
  }

  /** The first seasons with their changes; null as long as there are not so many. */
  tried(trials: number): readonly TrialSeason[] | null {
    return this.#tried.length < trials ? null : this.#tried.slice(0, trials);
  }

  /** The next season was run. */
  #book(season: Season): void {
    this.#gathered.section(0, this.done % this.#workload.sections).add(season);
    this.done++;
    this.#keep();
  }

  #keep(): void {
    if (this.#stages.get(this.done) === null) {
      this.#stages.set(this.done, new WorkloadTallies(this.#workload, this.#gathered.toData()));
    }
  }

  /** A line takes room for each of its holes: it is not kept for later. */
  #rest(): void {
    this.#line = null;
  }
}
