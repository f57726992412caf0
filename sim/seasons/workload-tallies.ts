/** What the seasons of a workload gave: tallies by job and section, and the trials. Parts merge without rounding. */

import { Tallies, type TallyData } from './tallies.js';
import type { Job, Workload } from './workload.js';

/** One season of a job and the same season with each change of `changesTried`. */
export interface TrialSeason {
  readonly season: number;
  /** Picks of each week: of the plan as it is, then of each change. */
  readonly picks: readonly (readonly number[])[];
}

export interface JobData {
  /** One entry a section; null where no season was run. */
  readonly sections: readonly (TallyData | null)[];
  readonly trials: readonly TrialSeason[];
}

export class WorkloadTallies {
  readonly #jobs: readonly Job[];
  readonly #sections: (Tallies | null)[][];
  readonly #trials: TrialSeason[][];
  /** What `whole` gave last, until something is added. */
  readonly #wholes: (Tallies | null)[];

  constructor(workload: Workload, data?: readonly JobData[]) {
    const { jobs, sections } = workload;
    this.#jobs = jobs;
    this.#sections = jobs.map(({ plan }, j) => {
      const tallies: readonly (TallyData | null)[] = data === undefined ? [] : data[j]!.sections;
      return Array.from({ length: sections }, (_, s) => {
        const tally = tallies[s] ?? null;
        return tally === null ? null : new Tallies(plan, tally);
      });
    });
    this.#wholes = jobs.map(() => null);
    this.#trials = jobs.map((_, j) => (data === undefined ? [] : [...data[j]!.trials]));
  }

  /** The tallies of a section to be added to, made when they are first asked for. */
  section(job: number, section: number): Tallies {
    this.#wholes[job] = null;
    const sections = this.#sections[job]!;
    sections[section] ??= new Tallies(this.#jobs[job]!.plan);
    return sections[section];
  }

  /** Tallies of each section in which a season of this job was run. */
  sectionsOf(job: number): (Tallies | null)[] {
    return this.#sections[job]!;
  }

  /** All sections of a job in one, to be read only. */
  whole(job: number): Tallies {
    const before = this.#wholes[job]!;
    if (before !== null) return before;
    const tallies = new Tallies(this.#jobs[job]!.plan);
    for (const section of this.#sections[job]!) if (section !== null) tallies.merge(section);
    this.#wholes[job] = tallies;
    return tallies;
  }

  /** Trials of a job, in the order of the seasons. */
  trials(job: number): readonly TrialSeason[] {
    return this.#trials[job]!;
  }

  addTrial(job: number, trial: TrialSeason): void {
    const trials = this.#trials[job]!;
    const at = trials.findLastIndex(({ season }) => season < trial.season) + 1;
    trials.splice(at, 0, trial);
  }

  /** Take in all that `other`, of the same workload and other seasons, has. */
  merge(other: WorkloadTallies): void {
    this.#jobs.forEach((_, j) => {
      other.#sections[j]!.forEach((section, s) => {
        if (section !== null) this.section(j, s).merge(section);
      });
      for (const trial of other.#trials[j]!) this.addTrial(j, trial);
    });
  }

  /**
   * What some of the jobs gave, as another workload with the same seasons asks for it. To be read only.
   * @param places of the other's jobs among these
   */
  part(workload: Workload, places: readonly number[]): WorkloadTallies {
    const part = new WorkloadTallies(workload);
    places.forEach((at, j) => {
      part.#sections[j] = this.#sections[at]!;
      // Without trials that only this workload asks for.
      part.#trials[j] = this.#trials[at]!.filter(({ season }) => season < workload.jobs[j]!.trials);
    });
    return part;
  }

  toData(): JobData[] {
    return this.#jobs.map((_, j) => ({
      sections: this.#sections[j]!.map((section) => section?.toData() ?? null),
      trials: this.#trials[j]!,
    }));
  }
}
