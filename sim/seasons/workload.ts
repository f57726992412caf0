/**
 * The seasons that a study needs, cut into pieces that can be run anywhere: plain data, to be sent to other threads.
 *
 * Season i of every job has the same luck (common random numbers). The seasons of a study are dealt to sections, season i to
 * section i modulo their number; figures of two plans are compared section by section (see sections.ts).
 */

import { holesOf, type Plan, seasonDays, seedsDueOf } from '../models/plan.js';
import * as route from '../models/route.js';
import { type Change, changesOf, RISK } from './changes.js';

/** A plan and how often it is to be run. */
export interface Job {
  readonly plan: Plan;
  /** Seasons 0 to this. */
  readonly seasons: number;
  /** As many of the first seasons are run again with small changes (see changes.ts); 0 for none. */
  readonly trials: number;
}

export interface Workload {
  readonly seed: number;
  /** Sections that the seasons are dealt to, at least 1. */
  readonly sections: number;
  readonly jobs: readonly Job[];
}

/** Seasons `first`, `first + sections`, ... of all jobs: all of them of one section. */
export interface Chunk {
  readonly first: number;
  readonly count: number;
}

/** Seasons from `from` to before `to`. */
export interface SeasonRange {
  readonly from: number;
  readonly to: number;
}

/** Most sections of a study: with 40, an interval is 3 % wider than with any number of them (Student's t). */
const MOST_SECTIONS = 40;

/** Sections that so many seasons are dealt to. */
export function sectionsFor(seasons: number): number {
  return Math.min(MOST_SECTIONS, seasons);
}

/** Plants that a piece should run to, so that there are enough pieces to share out and not too many to hand over. */
const CHUNK_PLANTS = 300_000;

const EVEN = 12;

/** Seasons of the longest job. */
export function seasonsOf(workload: Workload): number {
  return Math.max(...workload.jobs.map((job) => job.seasons));
}

/** Seasons of shard k of n (k from 1): shards lie one behind the other and differ by at most one season. */
export function shardRange(seasons: number, k: number, n: number): SeasonRange {
  return { from: Math.floor((seasons * (k - 1)) / n), to: Math.floor((seasons * k) / n) };
}

/** The pieces of a range of seasons, those with the first seasons first. Together they hold each season once. */
export function chunksOf(workload: Workload, { from, to }: SeasonRange): Chunk[] {
  const { sections, jobs } = workload;
  const plants = jobs.reduce((sum, job) => sum + plantsOf(job.plan), 0);
  const most = seasonsAPiece(plants);
  // Blocks of equal length, so many that two, three, four or six threads can share their pieces without a rest.
  let blocks = Math.max(1, Math.ceil((to - from) / (most * sections)));
  while ((blocks * sections) % EVEN !== 0) blocks++;
  const stint = Math.max(1, Math.ceil((to - from) / (blocks * sections)));
  const chunks: Chunk[] = [];
  for (let block = from; block < to; block += stint * sections) {
    const end = Math.min(to, block + stint * sections);
    for (let first = block; first < Math.min(end, block + sections); first++) {
      chunks.push({ first, count: Math.ceil((end - first) / sections) });
    }
  }
  return chunks;
}

/** Seasons that a piece should have. @param plants that one season brings about */
export function seasonsAPiece(plants: number): number {
  return Math.max(1, Math.round(CHUNK_PLANTS / Math.max(1, plants)));
}

/** The changes that the first seasons of a job are run again with: all remedies, then the risk. */
export function changesTried({ plan, trials }: Job): Change[] {
  return trials > 0 ? [...changesOf(plan), RISK] : [];
}

/** Season runs that a piece takes, trials included. */
export function runsOf(workload: Workload, chunk: Chunk): number {
  const changes = workload.jobs.map((job) => changesTried(job).length);
  let runs = 0;
  for (let k = 0; k < chunk.count; k++) {
    const season = chunk.first + k * workload.sections;
    workload.jobs.forEach((job, j) => {
      if (season < job.seasons) runs += season < job.trials ? 1 + changes[j]! : 1;
    });
  }
  return runs;
}

/** Picks that a season of a plan cannot have more of: a refill sows each hole of its stage once a day at most. */
export function mostPicks(plan: Plan): number {
  return plan.crops.reduce((sum, crop) => {
    const { sowing, cuts } = crop;
    const refilled = holesOf(plan.stages[route.first(crop)]!) * seasonDays(plan);
    return sum + cuts * (sowing.kind === 'due' ? seedsDueOf(plan, crop) : refilled);
  }, 0);
}

/** Plants that a season of a plan brings about: what its running time goes by. */
export function plantsOf(plan: Plan): number {
  let plants = 0;
  for (const crop of plan.crops) {
    const first = route.first(crop);
    plants +=
      crop.sowing.kind === 'due'
        ? seedsDueOf(plan, crop)
        : (holesOf(plan.stages[first]!) * seasonDays(plan)) / crop.stages[first]!.time.days;
  }
  return plants;
}
