/**
 * The plans that stand side by side in the strip: the one on the screen and its neighbours, which differ from it in one thing. Of several
 * crops all are changed, as `compare` does. Pure: a scenario in, scenarios out.
 */

import {
  type NeighbourAbout,
  aboutsOf as planAbouts,
  neighbours as planNeighbours,
} from '../../../sim/scenario/neighbours.js';
import type { Scenario } from '../../../sim/scenario/schema.js';
import { type Variation, variationText } from '../../../sim/scenario/vary.js';
import type { PlanResult } from '../../../sim/study/compare.js';
import type { NamedPlan } from '../thread/messages.js';
import { differing, sowText } from './knobs.js';

/** What the plans of the strip differ in; `kept`: the plans that were put aside. */
export type StripAbout = NeighbourAbout | { readonly kind: 'kept' };

/** A plan of the strip. */
export interface Neighbour {
  readonly scenario: Scenario;
  /** Whether it is the plan on the screen. */
  readonly now: boolean;
}

/** A plan of the strip and what is known of it. */
export interface StripRow extends Neighbour {
  /** As `compare` tells it; null until it is known. */
  readonly result: PlanResult | null;
  /** Seasons that it stands on so far. */
  readonly seasons: number;
  /** false: it was told beside other plans, and the weeks that count may be others now. */
  readonly fresh: boolean;
}

/** Plans side by side. */
export interface Strip {
  readonly about: StripAbout;
  readonly rows: readonly StripRow[];
  /** Seasons that each of them is to be run; null until it is known. */
  readonly seasons: number | null;
  /** The first of the weeks that count for all of them, an ISO date; null if there is none, or until it is known. */
  readonly from: string | null;
}

/** Plans of the strip: of a usual screen, and of one with 40 rows and more. */
export const STRIP_ROWS = { usual: 5, high: 7 } as const;

/** Rows of a screen from which on it is a high one. */
export const HIGH_SCREEN = 40;

/** What the strip is made of. */
export interface StripInput {
  readonly scenario: Scenario;
  /** Rows of the screen. */
  readonly rows: number;
  readonly kept: readonly { readonly scenario: Scenario }[];
}

/**
 * The strip for what is on the screen now. What was known of a plan before stays, but as something that is no longer fresh.
 * @param about what it should be about; where that cannot be, the first thing that can
 * @returns the same strip if it holds the same plans
 */
export function stripOf(input: StripInput, about: StripAbout | null, before: Strip | null): Strip {
  const { scenario, rows, kept } = input;
  const abouts = aboutsOf(scenario, kept.length);
  const chosen = abouts.find((one) => about !== null && isSame(one, about)) ?? abouts[0]!;
  const count = rows >= HIGH_SCREEN ? STRIP_ROWS.high : STRIP_ROWS.usual;
  const plans = neighboursOnce(
    scenario,
    chosen,
    count,
    kept.map((plan) => plan.scenario),
  );
  const known = new Map(before?.rows.map((row) => [textOf(row.scenario), row]));
  if (
    before !== null &&
    isSame(before.about, chosen) &&
    plans.length === before.rows.length &&
    plans.every(
      ({ scenario: plan, now }, i) =>
        before.rows[i]!.now === now && isSamePlan(before.rows[i]!.scenario, plan),
    )
  ) {
    return before;
  }
  return {
    about: chosen,
    seasons: null,
    from: null,
    rows: plans.map((plan) => {
      const { result = null, seasons = 0 } = known.get(textOf(plan.scenario)) ?? {};
      return { ...plan, result, seasons, fresh: false };
    }),
  };
}

/**
 * What a plan of the strip is called in a comparison, as `compare` calls it: `every 3 d`, `10 seeds`, `2 x nursery`; of those that are kept,
 * `kept 1: seeds 12`.
 */
export function nameOf(
  { scenario, now }: Neighbour,
  about: StripAbout,
  {
    scenario: present,
    kept,
  }: Pick<StripInput, 'scenario'> & {
    readonly kept: readonly { readonly number: number; readonly scenario: Scenario }[];
  },
): string {
  if (about.kind !== 'kept') return variationText(variationOf(scenario, about));
  const plan = kept.find((one) => isSamePlan(one.scenario, scenario));
  if (plan === undefined || now) return 'now';
  return `kept ${plan.number}: ${differing(scenario, present) || 'as now'}`;
}

/** The plans of the strip with the names that a comparison has for them. */
export function namedRows(
  state: Parameters<typeof nameOf>[2] & { readonly strip: Strip },
): readonly NamedPlan[] {
  const { about, rows } = state.strip;
  return rows.map((row) => ({ name: nameOf(row, about, state), scenario: row.scenario, now: row.now }));
}

/** What makes a plan differ from its neighbours; nothing where its crops are not alike in it. */
function variationOf({ crops, stages, visits }: Scenario, about: NeighbourAbout): Variation {
  const [sow, ...others] = crops.map((crop) => crop.sow);
  const alike = (what: (one: typeof sow) => unknown): boolean =>
    others.every((one) => JSON.stringify(what(one)) === JSON.stringify(what(sow)));
  switch (about.kind) {
    case 'cadence':
      if (!alike((one) => one && sowText(one))) return {};
      return sow === undefined || 'dates' in sow ? {} : { cadence: sow };
    case 'seeds':
      return sow && 'seeds' in sow && alike((one) => one && 'seeds' in one && one.seeds)
        ? { seeds: sow.seeds }
        : {};
    case 'channels':
      return { channels: { [about.stage]: stages.find(({ name }) => name === about.stage)!.channels } };
    case 'visits':
      return { visits };
  }
}

/** Something of the sowings of all crops: once where it is the same of all. */
export function each({ crops }: Scenario, text: (sow: Scenario['crops'][number]['sow']) => string): string {
  return [...new Set(crops.map(({ sow }) => text(sow)))].join(', ');
}

/** The last neighbours that were asked for: a key is looked up in the state that it leads to before it leads there. */
let last: { readonly asked: string; readonly found: readonly Neighbour[] } = { asked: '', found: [] };

function neighboursOnce(...of: Required<Parameters<typeof neighbours>>): readonly Neighbour[] {
  const [scenario, about, count, kept] = of;
  const asked = JSON.stringify([
    textOf(scenario),
    about,
    count,
    about.kind === 'kept' ? kept.map(textOf) : [],
  ]);
  if (asked !== last.asked) last = { asked, found: neighbours(...of) };
  return last.found;
}

/** What the strip is about next, round and round. */
export function nextAbout({ scenario, kept }: StripInput, about: StripAbout, by: 1 | -1): StripAbout {
  const abouts = aboutsOf(scenario, kept.length);
  const at = abouts.findIndex((one) => isSame(one, about));
  return abouts[(at + by + abouts.length) % abouts.length]!;
}

function isSame(one: StripAbout, other: StripAbout): boolean {
  return (
    one.kind === other.kind && ('stage' in one ? one.stage : '') === ('stage' in other ? other.stage : '')
  );
}

const texts = new WeakMap<Scenario, string>();

/** Two scenarios that read the same are the same plan. */
export function isSamePlan(one: Scenario, other: Scenario): boolean {
  return one === other || textOf(one) === textOf(other);
}

function textOf(scenario: Scenario): string {
  const known = texts.get(scenario);
  if (known !== undefined) return known;
  const text = JSON.stringify(scenario);
  texts.set(scenario, text);
  return text;
}

/** What a strip of this scenario can be about, in the order in which they are offered, the first one first. */
export function aboutsOf(scenario: Scenario, kept: number): StripAbout[] {
  return [...planAbouts(scenario), ...(kept > 0 ? [{ kind: 'kept' } as const] : [])];
}

/**
 * The plan on the screen among its neighbours, from the least to the most.
 * @param count plans at most, the one on the screen among them; fewer where there are no more
 * @param kept plans that were put aside
 */
export function neighbours(
  scenario: Scenario,
  about: StripAbout,
  count: number,
  kept: readonly Scenario[] = [],
): Neighbour[] {
  if (about.kind === 'kept') {
    const others = kept.filter((plan) => !isSamePlan(plan, scenario) && plan.weeks === scenario.weeks);
    // The last ones, where there is no room for all.
    const shown = others.slice(Math.max(0, others.length - count + 1));
    return [scenario, ...shown].map((plan) => ({ scenario: plan, now: plan === scenario }));
  }
  return planNeighbours(scenario, about, count).map(({ scenario: plan, now }) => ({ scenario: plan, now }));
}
