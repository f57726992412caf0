/**
 * The plans that stand side by side in the strip: the one on the screen and its neighbours, which differ from it in one thing. Of several
 * crops all are changed, as `compare` does. Pure: a scenario in, scenarios out.
 */

import { WEEKDAYS, type Weekday } from '../../../sim/models/dates.js';
import { CHANNELS, SEEDS } from '../../../sim/models/limits.js';
import type { Scenario } from '../../../sim/scenario/schema.js';
import { type Variation, vary } from '../../../sim/scenario/vary.js';
import type { PlanResult } from '../../../sim/study/compare.js';
import { sowText, step, VISITS } from './knobs.js';

/** What the plans of the strip differ in; `kept`: the plans that were put aside. */
export type StripAbout =
  | { readonly kind: 'cadence' | 'seeds' | 'visits' }
  | { readonly kind: 'kept' }
  | { readonly kind: 'channels'; readonly stage: string };

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

/** Days between sowings that a strip of cadences offers. */
const CADENCES = [1, 2, 3, 4, 5, 6, 7, 10, 14];

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

/** What a plan of the strip is called beside the others: `every 3 d`, `10 seeds`, `2 x nursery`, `kept 1`. */
export function nameOf(
  { scenario, now }: Neighbour,
  about: StripAbout,
  kept: readonly { readonly number: number; readonly scenario: Scenario }[],
): string {
  switch (about.kind) {
    case 'cadence':
      return each(scenario, sowText);
    case 'seeds':
      return `${each(scenario, (sow) => ('seeds' in sow ? String(sow.seeds) : '-'))} seeds`;
    case 'channels':
      return `${scenario.stages.find(({ name }) => name === about.stage)!.channels} x ${about.stage}`;
    case 'visits':
      return `visits ${typeof scenario.visits === 'string' ? scenario.visits : scenario.visits.join(' ')}`;
    case 'kept': {
      const plan = kept.find((one) => isSamePlan(one.scenario, scenario));
      return plan === undefined || now ? 'now' : `kept ${plan.number}`;
    }
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
export function aboutsOf({ crops, stages }: Scenario, kept: number): StripAbout[] {
  const sows = crops.map(({ sow }) => sow);
  const refilled = sows.some((sow) => 'refill' in sow);
  const dated = sows.some((sow) => 'dates' in sow);
  return [
    ...(refilled || dated ? [] : [{ kind: 'cadence' } as const]),
    ...(refilled ? [] : [{ kind: 'seeds' } as const]),
    ...[...stages].reverse().map(({ name }) => ({ kind: 'channels', stage: name }) as const),
    { kind: 'visits' },
    ...(kept > 0 ? [{ kind: 'kept' } as const] : []),
  ];
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
  const { below, above } = ladderOf(scenario, about);
  // As many on either side; where one ends, more of the other.
  const half = Math.floor((count - 1) / 2);
  const up = Math.min(above.length, Math.max(half, count - 1 - below.length));
  const down = Math.min(below.length, count - 1 - up);
  const varied = (variation: Variation): Neighbour[] => {
    const changed = vary(scenario, variation);
    return changed.ok ? [{ scenario: changed.value, now: false }] : [];
  };
  return [
    ...below.slice(0, down).reverse().flatMap(varied),
    { scenario, now: true },
    ...above.slice(0, up).flatMap(varied),
  ];
}

/** Variations on either side of a plan, the nearest first. */
interface Ladder {
  readonly below: readonly Variation[];
  readonly above: readonly Variation[];
}

function ladderOf(scenario: Scenario, about: Exclude<StripAbout, { kind: 'kept' }>): Ladder {
  switch (about.kind) {
    case 'cadence':
      return cadences(scenario);
    case 'seeds': {
      const sow = scenario.crops[0]!.sow;
      const seeds = 'seeds' in sow ? sow.seeds : SEEDS.least;
      return steps(seeds, SEEDS, (value) => ({ seeds: value }));
    }
    case 'channels': {
      const { channels } = scenario.stages.find(({ name }) => name === about.stage)!;
      return steps(channels, CHANNELS, (value) => ({ channels: { [about.stage]: value } }));
    }
    case 'visits':
      return visitDays(scenario);
  }
}

/** The cadence of the first crop stands for all: those of the others follow it. */
function cadences(scenario: Scenario): Ladder {
  const { sow } = scenario.crops[0]!;
  if ('on' in sow) return weekdays(scenario, sow.on);
  const every = 'every' in sow ? sow.every : 7;
  const cadence = (days: number): Variation => ({ cadence: { every: days } });
  return {
    below: CADENCES.filter((days) => days < every)
      .reverse()
      .map(cadence),
    above: CADENCES.filter((days) => days > every).map(cadence),
  };
}

/** One weekday fewer and one more, again and again; so that the days lie as evenly as they can, and only on days on which somebody comes. */
function weekdays({ visits }: Scenario, on: readonly Weekday[]): Ladder {
  const open = typeof visits === 'string' ? WEEKDAYS : visits;
  const [below, above]: [Variation[], Variation[]] = [[], []];
  for (let days = on; days.length > 1; ) {
    days = mostEven([...days].reverse().map((day) => days.filter((one) => one !== day)));
    below.push({ cadence: { on: days } });
  }
  for (let days = on; ; ) {
    const more = open.filter((day) => !days.includes(day));
    if (more.length === 0) break;
    days = mostEven(more.map((day) => WEEKDAYS.filter((one) => one === day || days.includes(one))));
    above.push({ cadence: { on: days } });
  }
  return { below, above };
}

/** Of some sets of weekdays the one with the least sum of squared gaps; the first of those that are alike. */
function mostEven(sets: readonly (readonly Weekday[])[]): readonly Weekday[] {
  const unevenness = sets.map((days) => {
    const places = days.map((day) => WEEKDAYS.indexOf(day)).sort((a, b) => a - b);
    return places.reduce((sum, place, i) => sum + ((places[i + 1] ?? places[0]! + 7) - place) ** 2, 0);
  });
  return sets[unevenness.indexOf(Math.min(...unevenness))]!;
}

function visitDays({ visits }: Scenario): Ladder {
  const days = visits === 'always' ? Number.POSITIVE_INFINITY : visits === 'daily' ? 7 : visits.length;
  const variation = (list: readonly Weekday[]): Variation => ({
    visits: list.length === WEEKDAYS.length ? 'daily' : list,
  });
  return {
    below: VISITS.filter((list) => list.length < days)
      .reverse()
      .map(variation),
    above: VISITS.filter((list) => list.length > days).map(variation),
  };
}

/** Steps of a size that fits the number, as with + and -. */
function steps(
  value: number,
  limits: { readonly least: number; readonly most: number },
  variation: (value: number) => Variation,
): Ladder {
  const walk = (by: 1 | -1): Variation[] => {
    const found: Variation[] = [];
    for (let now = value; found.length < STRIP_ROWS.high - 1; ) {
      const next = step(now, by, limits);
      if (next === now) break;
      found.push(variation(next));
      now = next;
    }
    return found;
  };
  return { below: walk(-1), above: walk(1) };
}
