/**
 * What holds the line back: small changes to the plan, each run with the same luck, and what they bring.
 *
 * A stage holds the line back if one more channel there brings more heads. That is tried, not guessed: the same
 * seasons are run again with the change, and the difference is taken season by season, so that luck cancels out.
 */

import { studentInterval } from '../engine/student.js';
import { Moments } from '../engine/tally.js';
import type { Plan } from '../models/plan.js';
import { type Change, changesOf } from '../seasons/changes.js';
import type { TrialSeason } from '../seasons/workload-tallies.js';

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

export interface Bottleneck {
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

/** A gain below this share of the picks is not called one. */
export const WORTH = 0.005;
/** Wanted heads that may be missing before the want no longer counts as met. */
const MET = 0.01;

/** Seasons for each trial, when `seasons` are run in all: differences of paired seasons need few. */
export function trialSeasons(seasons: number): number {
  return Math.min(seasons, 12, Math.max(5, Math.ceil(seasons / 4)));
}

/**
 * Judge the trials of a plan.
 * @param tried the seasons that were run with each change
 * @param fromWeek first week that counts (see `firstRunningWeek`)
 * @returns null if no week counts, or if fewer than 2 seasons were tried
 */
export function findBottleneck(
  plan: Plan,
  tried: readonly TrialSeason[],
  fromWeek: number,
): Bottleneck | null {
  if (fromWeek >= plan.weeks || tried.length < 2) return null;
  const before = tried.map(({ picks }) => meanFrom(picks[0]!, fromWeek));
  const worth = (WORTH * before.reduce((sum, picks) => sum + picks, 0)) / tried.length;
  const changes = changesOf(plan);
  const gains = changes.map((_, c) =>
    tried.map(({ picks }, i) => meanFrom(picks[c + 1]!, fromWeek) - before[i]!),
  );
  const trials = changes.map((change, i) => {
    const { mean, low, high } = interval(gains[i]!);
    return { change, gain: mean, low, high, brings: low > 0 && mean >= worth };
  });
  const wanted = tried.reduce((sum, season) => sum + season.wanted, 0);
  const short = tried.reduce((sum, season) => sum + season.short, 0);
  const wantMet = wanted > 0 && short <= MET * wanted;
  return { ...verdict(trials, gains, wantMet), seasons: tried.length, trials };
}

/** Mean and 95 % interval of differences between paired seasons. */
function interval(differences: readonly number[]): { mean: number; low: number; high: number } {
  const moments = new Moments();
  for (const difference of differences) moments.add(difference);
  return studentInterval(moments.mean, moments.standardError, differences.length - 1);
}

function verdict(
  trials: readonly Trial[],
  gains: readonly (readonly number[])[],
  wantMet: boolean,
): Pick<Bottleneck, 'by' | 'stages' | 'better'> {
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

function meanFrom(weekPicks: readonly number[], from: number): number {
  let sum = 0;
  for (let week = from; week < weekPicks.length; week++) sum += weekPicks[week]!;
  return sum / (weekPicks.length - from);
}
