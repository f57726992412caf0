/** What the weeks of a running line bring, and what they would bring if nobody were away. */

import type { Plan } from '../models/plan.js';
import { neverAway } from '../seasons/changes.js';
import { picksFrom, type Tallies } from '../seasons/tallies.js';
import type { Job } from '../seasons/workload.js';
import type { WorkloadTallies } from '../seasons/workload-tallies.js';
import { figureNamed } from './figures/figures.js';
import { wantedFrom } from './figures/per-hole-and-head.js';

/** What some weeks bring. */
export interface WeekFigures {
  readonly mean: number;
  /** A usual week: half of all weeks bring at least this. A whole number. */
  readonly p50: number;
  /** A bad week: 1 in 10 brings this or less. A whole number. */
  readonly p10: number;
  /** Share of weeks without a pick. */
  readonly without_pick: number;
  /** Heads wanted in all these weeks, and those missing on the day, mean of a season; null without `want`. */
  readonly wanted: number | null;
  readonly missing: number | null;
}

/** @param from first week that counts */
export function weekFigures(plan: Plan, from: number, tallies: Tallies): WeekFigures {
  const sample = { picks: picksFrom(tallies, from) };
  const mean = figureNamed('heads_a_week').of(sample);
  const wanted = plan.want === null ? null : wantedFrom(plan, from);
  return {
    mean,
    p50: figureNamed('usual_week').of(sample),
    p10: figureNamed('bad_week').of(sample),
    without_pick: figureNamed('weeks_without_pick').of(sample),
    wanted,
    // No more is picked than is wanted that day.
    missing: wanted === null ? null : wanted - mean * (plan.weeks - from),
  };
}

/** Jobs with the seasons of plans if nobody were away, of those plans in which somebody is. */
export interface PresentJobs {
  readonly jobs: readonly Job[];
  /** What they gave of a plan; null if nobody is away in it. @param place of the plan */
  tallies(gathered: WorkloadTallies, place: number): Tallies | null;
}

/** @param first number of the first of these jobs in the workload */
export function presentJobs(plans: readonly Plan[], seasons: number, first: number): PresentJobs {
  const jobs: Job[] = [];
  const places = plans.map((plan) => {
    const present = neverAway(plan);
    return present === plan ? null : first + jobs.push({ plan: present, seasons, trials: 0 }) - 1;
  });
  return {
    jobs,
    tallies: (gathered, place) => {
      const job = places[place] ?? null;
      return job === null ? null : gathered.whole(job);
    },
  };
}
