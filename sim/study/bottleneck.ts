/**
 * What holds the line back: small changes to the plan, each run with the same luck, and what they bring.
 *
 * A stage holds the line back if more channels there bring more heads. That is tried, not guessed: the same
 * seasons are run again with the change, and the difference is taken season by season, so that luck cancels out.
 *
 * Changes are judged free of scale, by their elasticity: how much more heads for each 1 % more room (or seeds, or visits), in per cent. A
 * stage that limits alone has 1, one that never limits has 0; a hall and a tenth of it have the same. (The elasticity of economics,
 * over the arc from the plan as it is to the plan with the change.)
 */

import { intervalOfMean } from '../engine/student.js';
import type { Plan } from '../models/plan.js';
import { type Change, changesOf, RISK, shareAdded } from '../seasons/changes.js';
import { firstCommonWeek, firstRunningWeekOf } from '../seasons/tallies.js';
import type { TrialSeason } from '../seasons/workload-tallies.js';
import { wantedFrom } from './figures/per-hole-and-head.js';

/** A change and how much more it gives: mean more picks a week, over the weeks of a running line. */
export interface Effect {
  readonly change: Change;
  readonly gain: number;
  /** 95 % interval of the gain: paired seasons, Student's t. */
  readonly low: number;
  readonly high: number;
}

/** A remedy and what it brings. */
export interface Trial extends Effect {
  /** What it adds, as a share of what is there: of the channels of its stage, of the seeds, of the visits. */
  readonly added: number;
  /** Share of the heads that it brings more, over the share that it adds, with its 95 % interval. */
  readonly elasticity: { readonly mean: number; readonly low: number; readonly high: number };
  /** true if the interval of the gain lies above 0 and the gain is worth it (see `isWorth`). */
  readonly brings: boolean;
}

export interface Bottleneck {
  /** What holds the line back: stages; what is sown; when it is visited; an absence; what is wanted; or nothing that was tried. */
  readonly by: 'stage' | 'sowing' | 'visits' | 'away' | 'want' | 'nothing';
  /** The stages that do: the one of the largest elasticity, and those that cannot be told from it. */
  readonly stages: readonly string[];
  /**
   * Changes that are not channels and bring more for what they add than what holds the line back: that is then not where to
   * begin.
   */
  readonly better: readonly Change[];
  /** Seasons that were run for each change. */
  readonly seasons: number;
  readonly trials: readonly Trial[];
  /**
   * What one thing that may go wrong would do, over the weeks in which the line runs with it too: that it begins later is no loss of
   * each week.
   */
  readonly risk: Effect;
}

/** A gain below this share of the picks is not called one, unless little was added for it. */
export const WORTH = 0.005;
/** From this elasticity on something holds the line back. */
const LIMITS = 0.05;
/** Wanted heads that may be missing before the want no longer counts as met. */
const MET = 0.01;

/** Whether a gain is worth what was added: it is a two-hundredth of the heads, or a twentieth of the share that was added. */
export function isWorth(shareGained: number, shareOfRoom: number): boolean {
  return shareGained >= WORTH || limits(shareGained / shareOfRoom);
}

/** Whether something of such an elasticity holds the line back. */
export function limits(elasticity: number): boolean {
  return elasticity >= LIMITS;
}

/** Seasons for each trial, when `seasons` are run in all: differences of paired seasons need few. */
export function trialSeasons(seasons: number): number {
  return Math.min(seasons, 12, Math.max(5, Math.ceil(seasons / 4)));
}

/** A trial, and its elasticity in each season: their mean and scatter are those of the ratio of means. */
interface Tried extends Trial {
  readonly elasticities: readonly number[];
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
  const heads = before.reduce((sum, picks) => sum + picks, 0) / tried.length;
  const gainsOf = (place: number, from = fromWeek): number[] =>
    tried.map(({ picks }) => meanFrom(picks[place]!, from) - meanFrom(picks[0]!, from));
  const effect = (change: Change, gains: readonly number[]): Effect => {
    const { mean, low, high } = intervalOfMean(gains);
    return { change, gain: mean, low, high };
  };
  const changes = changesOf(plan);
  const risky = changes.length + 1;
  const riskyWeek = firstRunningWeekOf(
    tried.map(({ picks }) => picks[risky]!),
    plan.weeks,
  );
  const trials = changes.map((change, c): Tried => {
    const gains = gainsOf(c + 1);
    const found = effect(change, gains);
    const added = shareAdded(plan, change);
    const share = heads > 0 ? found.gain / heads : 0;
    // The error of a ratio of means (Cochran 1977, Sampling Techniques, chapter 6, from memory): what a season gained beyond its share.
    const elasticities = gains.map((gain, i) =>
      heads > 0 ? (gain - share * (before[i]! - heads)) / (heads * added) : 0,
    );
    const brings = found.low > 0 && isWorth(share, added);
    return { ...found, added, elasticity: intervalOfMean(elasticities), brings, elasticities };
  });
  const wanted = wantedFrom(plan, fromWeek);
  const wantMet = wanted > 0 && heads * (plan.weeks - fromWeek) >= (1 - MET) * wanted;
  return {
    ...verdict(trials, wantMet),
    seasons: tried.length,
    trials: trials.map(({ elasticities: _, ...trial }) => trial),
    risk: effect(RISK, gainsOf(risky, firstCommonWeek([fromWeek, riskyWeek], plan.weeks))),
  };
}

function verdict(trials: readonly Tried[], wantMet: boolean): Pick<Bottleneck, 'by' | 'stages' | 'better'> {
  const ranked = trials.filter(({ brings }) => brings).sort((a, b) => b.elasticity.mean - a.elasticity.mean);
  const channels = ranked.filter(({ change }) => change.kind === 'channel');
  const others = ranked.filter(({ change }) => change.kind !== 'channel');
  const best = channels[0];
  const betterThan = ({ elasticity: { mean } }: Tried): Change[] =>
    others.filter(({ elasticity }) => elasticity.low > mean).map(({ change }) => change);
  const only = (by: Bottleneck['by'], better: Change[] = []): ReturnType<typeof verdict> => ({
    by,
    stages: [],
    better,
  });
  if (best === undefined || !limits(best.elasticity.mean)) {
    if (wantMet) return only('want');
    const seeds = others.find(({ change }) => change.kind === 'seeds');
    if (seeds !== undefined) return only('sowing', betterThan(seeds));
    if (others.length > 0) return only(others[0]!.change.kind as 'visits' | 'away');
    if (best === undefined) return only('nothing');
  }
  const equal = channels.filter(
    ({ elasticities }) => intervalOfMean(best.elasticities.map((one, i) => one - elasticities[i]!)).low <= 0,
  );
  return {
    by: 'stage',
    stages: equal.map(({ change }) => (change as { stage: string }).stage),
    better: betterThan(best),
  };
}

function meanFrom(weekPicks: readonly number[], from: number): number {
  let sum = 0;
  for (let week = from; week < weekPicks.length; week++) sum += weekPicks[week]!;
  return sum / (weekPicks.length - from);
}
