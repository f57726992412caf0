/**
 * Why no plan meets the goal: from the plan that came nearest each thing that may stand in the way is taken away, and the same
 * seasons are run again.
 */

import { Histogram } from '../../engine/tally.js';
import type { Plan } from '../../models/plan.js';
import { neverAway, visitedDaily } from '../../seasons/changes.js';
import type { Pause } from '../../seasons/gather.js';
import { SeasonRunner } from '../../seasons/season-runner.js';
import { figureNamed } from '../figures/figures.js';
import { type CountingRule, SeasonCounter, shareMet } from './season-counter.js';
import type { Search } from './setup.js';

/** What may stand in the way, in the order in which it is taken away. */
export const OBSTACLES = ['want', 'absence', 'visits', 'holes', 'seeds'] as const;
export type Obstacle = (typeof OBSTACLES)[number];

/** The plan with something taken away. */
export interface Relief {
  /** Share of the weeks with at least the heads of the goal. */
  readonly weeks_met: number;
  readonly heads_a_week: number;
  /** Whether that is the share of the goal. */
  readonly meets: boolean;
}

export interface Obstacles {
  /** Seasons that were run each time. */
  readonly seasons: number;
  /** Each of those that the plan knows, taken away alone. */
  readonly alone: readonly (Relief & { readonly taken_away: Obstacle })[];
  /** All of them taken away. */
  readonly together: Relief;
  /** What stands in the way; none if not even all of them taken away are enough. */
  readonly in_the_way: readonly Obstacle[];
  /** true if one of these is enough; false if they must all go. */
  readonly one_is_enough: boolean;
}

/** How many times as many holes and seeds there are where they are taken away as an obstacle. */
const HOLES = 10;
const SEEDS = 2;

/**
 * @param place of the plan
 * @returns null if stopped
 */
export async function obstaclesOf(
  { goal, ranked, counting, workload }: Search,
  place: number,
  pause?: Pause,
): Promise<Obstacles | null> {
  const { plan } = ranked[place]!.candidate;
  const known = OBSTACLES.filter((obstacle) => without(plan, obstacle) !== plan);
  const but = (kept: Obstacle): Obstacle[] => known.filter((obstacle) => obstacle !== kept);
  const taken = [...known.map((obstacle) => [obstacle]), known, ...known.map(but)];
  const jobs = taken.map((obstacles) => ({
    plan: obstacles.reduce(without, plan),
    seasons: goal.first,
    trials: 0,
  }));
  const runner = new SeasonRunner({ ...workload, jobs });
  const all = jobs.length * goal.first;
  let done = 0;
  const reliefs: Relief[] = [];
  for (const job of jobs.keys()) {
    const picks = await runner.weeks(job, 0, goal.first, (runs) => {
      done += runs;
      return pause?.(done, all) ?? null;
    });
    if (picks === null) return null;
    reliefs.push(reliefOf(picks, goal.first, counting, goal.weeksMet));
  }
  const alone = known.map((obstacle, i) => ({ taken_away: obstacle, ...reliefs[i]! }));
  const together = reliefs[known.length]!;
  const enough = known.filter((_, i) => reliefs[i]!.meets);
  const needed = known.filter((_, i) => !reliefs[known.length + 1 + i]!.meets);
  return {
    seasons: goal.first,
    alone,
    together,
    in_the_way: enough.length > 0 ? enough : together.meets ? needed : [],
    one_is_enough: enough.length > 0,
  };
}

/** The plan with an obstacle taken away; the same object if it does not know it. */
function without(plan: Plan, obstacle: Obstacle): Plan {
  switch (obstacle) {
    case 'want':
      return plan.want === null ? plan : { ...plan, want: null };
    case 'absence':
      return neverAway(plan);
    case 'visits': {
      const daily = visitedDaily(plan);
      const days = ({ visits }: Plan): number => (visits.kind === 'days' ? visits.days.length : 0);
      return days(daily) === days(plan) ? plan : daily;
    }
    case 'holes':
      return {
        ...plan,
        stages: plan.stages.map((stage) => ({ ...stage, channels: HOLES * stage.channels })),
      };
    case 'seeds': {
      if (plan.crops.every(({ sowing }) => sowing.kind === 'refill')) return plan;
      const crops = plan.crops.map(({ sowing, ...crop }) =>
        sowing.kind === 'due'
          ? { ...crop, sowing: { ...sowing, seeds: SEEDS * sowing.seeds } }
          : { ...crop, sowing },
      );
      return { ...plan, crops };
    }
  }
}

function reliefOf(picks: Float64Array, seasons: number, counting: CountingRule, goal: number): Relief {
  const counter = new SeasonCounter(counting);
  for (let season = 0; season < seasons; season++) counter.add(picks, season);
  const counted = counter.toData();
  const met = shareMet(counted, counting);
  const heads = figureNamed('heads_a_week').of({ picks: Histogram.from(counted.picks) });
  return { weeks_met: met, heads_a_week: heads, meets: met >= goal };
}
