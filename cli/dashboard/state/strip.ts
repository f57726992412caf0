/**
 * The plans that stand side by side in the strip: the one on the screen and its neighbours, which differ from it in one thing. Of several
 * crops all are changed, as `compare` does. Pure: a scenario in, scenarios out.
 */

import { WEEKDAYS, type Weekday } from '../../../sim/models/dates.js';
import { CHANNELS, SEEDS } from '../../../sim/models/limits.js';
import type { Scenario } from '../../../sim/scenario/schema.js';
import { type Variation, vary } from '../../../sim/scenario/vary.js';
import { step, VISITS } from './knobs.js';

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

/** Days between sowings that a strip of cadences offers. */
const CADENCES = [1, 2, 3, 4, 5, 6, 7, 10, 14];

/** Plans of the strip: of a usual screen, and of one with 40 rows and more. */
export const STRIP_ROWS = { usual: 5, high: 7 } as const;

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
    const others = kept.filter((plan) => plan !== scenario && plan.weeks === scenario.weeks);
    return [scenario, ...others].slice(0, count).map((plan) => ({ scenario: plan, now: plan === scenario }));
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
