/** The lines that a study of sizes has to run: each size, each stage with more channels, and the ladder of each size. */

import { withChannels } from '../../models/channels.js';
import type { Plan } from '../../models/plan.js';
import { channelsMore } from '../../seasons/changes.js';
import type { Job } from '../../seasons/workload.js';
import { ladderOf } from './gap.js';
import type { Sizes } from './layout.js';

/** A size, and which jobs tell about it. */
export interface SizeJob {
  /** true if it was asked for; false if it is there only because it is the present one. */
  readonly asked: boolean;
  /** Its own job, with all seasons. */
  readonly job: number;
  /** The first line of its ladder. */
  readonly ideal: Plan;
  /** Jobs of the lines of its ladder, in its order; the same one twice where a line is the same. */
  readonly ladder: readonly number[];
}

export interface SizeJobs {
  readonly jobs: readonly Job[];
  /** The present size first if it was not asked for. */
  readonly sizes: readonly SizeJob[];
  /** Place of the present size among them. */
  readonly present: number;
  /** Jobs of the present size with more channels, one for each stage. */
  readonly more: readonly number[];
}

/** Seasons of all ladders together that are run and kept, beyond the least of each. */
const LADDER_SEASONS = 1000;

/**
 * Seasons of a ladder: its steps are paired and large, a few tell enough. A tenth of those of a size, from 5 to 20, and fewer
 * of these where many sizes are tried.
 */
export function ladderSeasons(seasons: number, sizes: number): number {
  const most = Math.min(20, Math.round(seasons / 10), Math.floor(LADDER_SEASONS / sizes));
  return Math.min(seasons, Math.max(5, most));
}

export function sizeJobs(plan: Plan, { counts }: Sizes, seasons: number): SizeJobs {
  const jobs: Job[] = [];
  const known = new Map<string, number>();
  const jobOf = (channels: readonly number[]): number => {
    const key = channels.join(' ');
    let job = known.get(key);
    if (job === undefined) {
      job = jobs.push({ plan: withChannels(plan, channels), seasons, trials: 0 }) - 1;
      known.set(key, job);
    }
    return job;
  };

  const present = plan.stages.map(({ channels }) => channels);
  const isPresent = (channels: readonly number[]): boolean =>
    channels.every((count, s) => count === present[s]);
  const all = counts.some(isPresent) ? counts : [present, ...counts];
  const own = all.map(jobOf);
  const more = present.map((_, s) =>
    jobOf(present.map((count, i) => (i === s ? count + channelsMore(plan.stages[s]!) : count))),
  );

  const lines = ladderOf(plan);
  const short = ladderSeasons(seasons, all.length);
  const sizes = all.map((channels, i): SizeJob => {
    const ladder: number[] = [];
    lines.forEach((line, k) => {
      const same = k > 0 && line === lines[k - 1];
      ladder.push(
        same
          ? ladder[k - 1]!
          : jobs.push({ plan: withChannels(line, channels), seasons: short, trials: 0 }) - 1,
      );
    });
    return {
      asked: all === counts || i > 0,
      job: own[i]!,
      ideal: jobs[ladder[0]!]!.plan,
      ladder,
    };
  });
  return { jobs, sizes, present: all.findIndex(isPresent), more };
}
