/** Small changes to a plan that are tried to find what holds the line back, and what may go wrong. */

import { withChannels } from '../models/channels.js';
import { withGrowings } from '../models/growings.js';
import { BLOCKED, type Season, STATE_COUNT, UNSOWN } from '../models/ledger.js';
import { type CropPlan, type Plan, type StagePlan, seasonDays, seedsDue } from '../models/plan.js';
import * as route from '../models/route.js';

export type Change =
  /** `channels` more of a stage, with so many `holes` together. */
  | {
      readonly kind: 'channel';
      readonly stage: string;
      readonly channels: number;
      readonly holes: number;
    }
  | { readonly kind: 'seeds'; readonly percent: number }
  /** A visit every day on which somebody can come. */
  | { readonly kind: 'visits' }
  /** The visits that an absence takes away. */
  | { readonly kind: 'away' }
  /** All growing takes longer: no remedy but a risk. */
  | { readonly kind: 'growing'; readonly percent: number };

/** More seeds over all sowings, in the trial of more seeds [%]. */
const MORE_SEEDS_PERCENT = 10;

/** What may go wrong and is tried beside the remedies. */
export const RISK: Change = { kind: 'growing', percent: 10 };

/**
 * The remedies that can be tried, each only where it changes anything: more channels in each stage; more seeds; a visit every day;
 * nobody away.
 */
export function changesOf(plan: Plan): Change[] {
  const changes: Change[] = [
    ...plan.stages.map((stage): Change => {
      const channels = channelsMore(stage);
      return { kind: 'channel', stage: stage.name, channels, holes: channels * stage.holesPerChannel };
    }),
    { kind: 'seeds', percent: MORE_SEEDS_PERCENT },
    { kind: 'visits' },
    { kind: 'away' },
  ];
  return changes.filter((change) => shareAdded(plan, change) > 0);
}

/** Channels that are tried beyond those of a stage: 1 in 100, at least one. */
export function channelsMore({ channels }: StagePlan): number {
  return Math.max(1, Math.round(channels / 100));
}

/** What a remedy adds, as a share of what is there: of the channels of its stage, of the seeds, of the visits. */
export function shareAdded(plan: Plan, change: Change): number {
  switch (change.kind) {
    case 'channel':
      return change.channels / plan.stages.find(({ name }) => name === change.stage)!.channels;
    case 'seeds':
      return seedsDue(applied(plan, change)) / seedsDue(plan) - 1;
    case 'visits':
    case 'away':
      return visitsOf(applied(plan, change)) / visitsOf(plan) - 1;
    case 'growing':
      return 0;
  }
}

function visitsOf({ visits }: Plan): number {
  return visits.kind === 'days' ? visits.days.length : Number.POSITIVE_INFINITY;
}

/** The plan with the change made. */
export function applied(plan: Plan, change: Change): Plan {
  switch (change.kind) {
    case 'channel':
      return withChannels(
        plan,
        plan.stages.map(({ name, channels }) => channels + (name === change.stage ? change.channels : 0)),
      );
    case 'seeds':
      return { ...plan, crops: plan.crops.map((crop) => withMoreSeeds(crop, change.percent)) };
    case 'visits':
      return visitedDaily(plan);
    case 'away':
      return neverAway(plan);
    case 'growing':
      return { ...plan, crops: plan.crops.map((crop) => growingLonger(crop, 1 + change.percent / 100)) };
  }
}

/** The plan with a visit every day, but for those on which nobody can come. */
export function visitedDaily(plan: Plan): Plan {
  const { visits } = plan;
  if (visits.kind === 'always') return plan;
  const away = new Set(visits.away?.days);
  const days = Array.from({ length: seasonDays(plan) }, (_, day) => day).filter((day) => !away.has(day));
  return { ...plan, visits: { ...visits, days } };
}

/** The plan with the visits that an absence takes away; the same object if it takes none. */
export function neverAway(plan: Plan): Plan {
  const { visits } = plan;
  if (visits.kind === 'always' || !visits.away?.visits.length) return plan;
  const days = [...visits.days, ...visits.away.visits].sort((a, b) => a - b);
  return { ...plan, visits: { kind: 'days', days } };
}

/** Whole seeds, spread over the sowings: after each of them their sum is as near as it can be to the share. */
function withMoreSeeds(crop: CropPlan, percent: number): CropPlan {
  const { sowing } = crop;
  if (sowing.kind !== 'due') return crop;
  const upTo = (sowings: number): number => Math.round((sowings * sowing.seeds * percent) / 100);
  return { ...crop, sowing: { ...sowing, more: sowing.days.map((_, k) => upTo(k + 1) - upTo(k)) } };
}

function growingLonger(crop: CropPlan, times: number): CropPlan {
  return withGrowings(crop, ({ time, ...rest }) => ({
    ...rest,
    time: { ...time, days: time.days * times, times: time.times.map((one) => one * times) },
  }));
}

/**
 * true if the change cannot have mattered in a season of the plan as it is: the season need not be run again.
 *
 * A channel more takes nobody in if nobody was ever refused: then no plant was blocked in the stage before (at the first
 * stage: no seed left unsown). Where a crop is refilled the rule itself looks at the holes, and where a plant that keeps for
 * no time is thrown away at the instant at which it is refused it was never blocked: then nothing can be said.
 */
export function cannotMatter(change: Change, plan: Plan, season: Season): boolean {
  if (change.kind !== 'channel') return false;
  const atOnce = plan.visits.kind === 'always';
  if (
    plan.crops.some(
      ({ sowing, stages }) => sowing.kind === 'refill' || (atOnce && stages.some(({ keeps }) => keeps === 0)),
    )
  )
    return false;
  const s = plan.stages.findIndex((stage) => stage.name === change.stage);
  if (s === route.first(plan)) return season.counts[UNSOWN] === 0;
  return season.ledger[route.before(plan, s) * STATE_COUNT + BLOCKED] === 0;
}
