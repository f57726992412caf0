/**
 * What holds the line back: small changes to the plan, each run with the same luck, and what they bring.
 *
 * A stage holds the line back if one more channel there brings more heads. That is tried, not guessed: the same
 * seasons are run again with the change, and the difference is taken season by season, so that luck cancels out.
 */

import { studentQuantile } from '../engine/student.js';
import { Moments } from '../engine/tally.js';
import { type Season, SHORT, WANTED } from '../models/ledger.js';
import { Line } from '../models/line.js';
import type { CropPlan, Plan } from '../models/plan.js';
import { seasonDays } from '../models/plan.js';

/** A change that is tried. */
export type Change =
  | { readonly kind: 'channel'; readonly stage: string; readonly holes: number }
  | { readonly kind: 'seeds'; readonly percent: number }
  | { readonly kind: 'visits' };

/** A change and what it brings. */
export interface Trial {
  readonly change: Change;
  /** Mean more picks a week, over the weeks of a running line. */
  readonly gain: number;
  /** 95 % interval of the gain: paired seasons, Student's t. */
  readonly low: number;
  readonly high: number;
  /** true if the interval lies above 0 and the gain is worth a two-hundredth of the picks. */
  readonly brings: boolean;
}

export interface Limits {
  /** What holds the line back: stages; what is sown; when it is visited; what is wanted; or nothing that was tried. */
  readonly by: 'stage' | 'sowing' | 'visits' | 'want' | 'nothing';
  /** The stages that do: the one where a channel brings most, and those that cannot be told from it. */
  readonly stages: readonly string[];
  /** Changes that are not channels and bring more than the best channel: stages are then not where to begin. */
  readonly better: readonly Change[];
  /** Seasons that were run for each change. */
  readonly seasons: number;
  readonly trials: readonly Trial[];
}

/** The picks of the first seasons of a plan as it is: what the trials are compared with. */
export class Baseline {
  readonly #weeks: number;
  readonly #picks: Float64Array;
  seasons = 0;
  wanted = 0;
  short = 0;

  /** @param most seasons to be kept */
  constructor(plan: Plan, most: number) {
    this.#weeks = plan.weeks;
    this.#picks = new Float64Array(most * plan.weeks);
  }

  /** Keep a season; those beyond the number that is wanted are let go. Call in the order of the seasons. */
  add(season: Season): void {
    const at = this.seasons * this.#weeks;
    if (at >= this.#picks.length) return;
    this.#picks.set(season.weekPicks, at);
    this.wanted += season.counts[WANTED]!;
    this.short += season.counts[SHORT]!;
    this.seasons++;
  }

  /** Mean picks a week from week `from` on, of season `i`. */
  picksAWeek(i: number, from: number): number {
    return meanFrom(this.#picks.subarray(i * this.#weeks, (i + 1) * this.#weeks), from);
  }
}

/** More seeds at each sowing, in the trial of more seeds [%]. */
const MORE_SEEDS_PERCENT = 10;
/** A gain below this share of the picks is not called one. */
const WORTH = 0.005;
/** Wanted heads that may be missing before the want no longer counts as met. */
const MET = 0.01;
/** Confidence of every interval. */
const CONFIDENCE = 0.95;

/** Seasons for each trial, when `seasons` are run in all: differences of paired seasons need few. */
export function trialSeasons(seasons: number): number {
  return Math.min(seasons, 12, Math.max(5, Math.ceil(seasons / 4)));
}

/**
 * Try each change on the seasons of the baseline.
 * @param fromWeek first week that counts (see `firstRunningWeek`)
 * @param pause as in `replicate`, asked after each season of each trial; hears also how many there will be
 * @returns null if stopped early, if no week counts, or if the baseline has fewer than 2 seasons
 */
export async function findLimits(
  plan: Plan,
  seed: number,
  baseline: Baseline,
  fromWeek: number,
  pause?: (done: number, all: number) => Promise<boolean> | null,
): Promise<Limits | null> {
  const { seasons } = baseline;
  if (fromWeek >= plan.weeks || seasons < 2) return null;
  const changes = changesOf(plan);
  const before = Array.from({ length: seasons }, (_, i) => baseline.picksAWeek(i, fromWeek));
  const worth = (WORTH * before.reduce((sum, picks) => sum + picks, 0)) / seasons;
  const gains: number[][] = [];
  let done = 0;
  for (const change of changes) {
    const line = new Line(applied(plan, change));
    const gained: number[] = [];
    for (let i = 0; i < seasons; i++) {
      gained.push(meanFrom(line.run(seed, i).weekPicks, fromWeek) - before[i]!);
      const waiting = pause?.(++done, changes.length * seasons) ?? null;
      if (waiting !== null && !(await waiting)) return null;
    }
    gains.push(gained);
  }
  const trials = changes.map((change, i) => {
    const { mean, low, high } = interval(gains[i]!);
    return { change, gain: mean, low, high, brings: low > 0 && mean >= worth };
  });
  const wantMet = baseline.wanted > 0 && baseline.short <= MET * baseline.wanted;
  return { ...verdict(trials, gains, wantMet), seasons, trials };
}

/** Mean and 95 % interval of differences between paired seasons. */
function interval(differences: readonly number[]): { mean: number; low: number; high: number } {
  const moments = new Moments();
  for (const difference of differences) moments.add(difference);
  const half = studentQuantile((1 + CONFIDENCE) / 2, differences.length - 1) * moments.standardError;
  return { mean: moments.mean, low: moments.mean - half, high: moments.mean + half };
}

function verdict(
  trials: readonly Trial[],
  gains: readonly (readonly number[])[],
  wantMet: boolean,
): Pick<Limits, 'by' | 'stages' | 'better'> {
  const brings = (kind: Change['kind']): number[] =>
    trials.flatMap((trial, i) => (trial.change.kind === kind && trial.brings ? [i] : []));
  const channels = brings('channel').sort((a, b) => trials[b]!.gain - trials[a]!.gain);
  if (channels.length > 0) {
    const best = gains[channels[0]!]!;
    const equal = channels.filter((i) => interval(best.map((gain, k) => gain - gains[i]![k]!)).low <= 0);
    const most = trials[channels[0]!]!.gain;
    return {
      by: 'stage',
      stages: equal.map((i) => (trials[i]!.change as { stage: string }).stage),
      better: trials.flatMap(({ change, brings, low }) =>
        change.kind !== 'channel' && brings && low > most ? [change] : [],
      ),
    };
  }
  if (wantMet) return { by: 'want', stages: [], better: [] };
  if (brings('seeds').length > 0) return { by: 'sowing', stages: [], better: [] };
  if (brings('visits').length > 0) return { by: 'visits', stages: [], better: [] };
  return { by: 'nothing', stages: [], better: [] };
}

function meanFrom(weekPicks: Float64Array, from: number): number {
  let sum = 0;
  for (let week = from; week < weekPicks.length; week++) sum += weekPicks[week]!;
  return sum / (weekPicks.length - from);
}

function changesOf(plan: Plan): Change[] {
  const changes: Change[] = plan.stages.map((stage) => ({
    kind: 'channel',
    stage: stage.name,
    holes: stage.holesPerChannel,
  }));
  if (plan.crops.some((crop) => crop.sowing.kind === 'due')) {
    changes.push({ kind: 'seeds', percent: MORE_SEEDS_PERCENT });
  }
  if (plan.visits.kind === 'days' && plan.visits.days.length < seasonDays(plan))
    changes.push({ kind: 'visits' });
  return changes;
}

function applied(plan: Plan, change: Change): Plan {
  switch (change.kind) {
    case 'channel':
      return {
        ...plan,
        stages: plan.stages.map((stage) =>
          stage.name === change.stage ? { ...stage, channels: stage.channels + 1 } : stage,
        ),
      };
    case 'seeds':
      return { ...plan, crops: plan.crops.map((crop) => withMoreSeeds(crop, change.percent)) };
    case 'visits':
      return {
        ...plan,
        visits: { kind: 'days', days: Array.from({ length: seasonDays(plan) }, (_, day) => day) },
      };
  }
}

function withMoreSeeds(crop: CropPlan, percent: number): CropPlan {
  if (crop.sowing.kind !== 'due') return crop;
  return { ...crop, sowing: { ...crop.sowing, seeds: Math.ceil(crop.sowing.seeds * (1 + percent / 100)) } };
}
