/**
 * The plans that stand beside a plan: those that differ from it in one thing, by as little as makes a difference. Of several crops all
 * are changed, as `compare` does. Pure: a scenario in, scenarios out.
 */

import { WEEKDAYS, type Weekday } from '../models/dates.js';
import { CHANNELS, type Limits, SEEDS } from '../models/limits.js';
import type { Scenario } from './schema.js';
import { type Variation, vary } from './vary.js';

/** What neighbours differ in. */
export type NeighbourAbout =
  | { readonly kind: 'cadence' | 'seeds' | 'visits' }
  | { readonly kind: 'channels'; readonly stage: string };

export interface Neighbour {
  readonly scenario: Scenario;
  /** What makes it of the plan; of the plan itself, what it has already. */
  readonly variation: Variation;
  /** Whether it is the plan itself. */
  readonly now: boolean;
}

/** Days between sowings. */
const CADENCES = [1, 2, 3, 4, 5, 6, 7, 10, 14];

/** Days of visits, from the rarest on. */
export const VISITS: readonly (readonly Weekday[])[] = [
  ['mon'],
  ['mon', 'thu'],
  ['mon', 'wed', 'fri'],
  ['mon', 'tue', 'thu', 'sat'],
  ['mon', 'tue', 'wed', 'thu', 'fri'],
  [...WEEKDAYS],
];

/** Numbers that are tried on either side at most. */
const MOST_STEPS = 6;

/** What the neighbours of this scenario can differ in, what says most first. */
export function aboutsOf({ crops, stages }: Scenario): NeighbourAbout[] {
  const sows = crops.map(({ sow }) => sow);
  const refilled = sows.some((sow) => 'refill' in sow);
  const dated = sows.some((sow) => 'dates' in sow);
  return [
    ...(refilled || dated ? [] : [{ kind: 'cadence' } as const]),
    ...(refilled ? [] : [{ kind: 'seeds' } as const]),
    ...[...stages].reverse().map(({ name }) => ({ kind: 'channels', stage: name }) as const),
    { kind: 'visits' },
  ];
}

/**
 * A plan among its neighbours, from the least to the most.
 * @param count plans at most, the plan among them; fewer where there are no more
 */
export function neighbours(scenario: Scenario, about: NeighbourAbout, count: number): Neighbour[] {
  const { present, below, above } = ladderOf(scenario, about);
  // As many on either side; where one ends, more of the other.
  const half = Math.floor((count - 1) / 2);
  const up = Math.min(above.length, Math.max(half, count - 1 - below.length));
  const down = Math.min(below.length, count - 1 - up);
  const varied = (variation: Variation): Neighbour[] => {
    const changed = vary(scenario, variation);
    return changed.ok ? [{ scenario: changed.value, variation, now: false }] : [];
  };
  return [
    ...below.slice(0, down).reverse().flatMap(varied),
    { scenario, variation: present, now: true },
    ...above.slice(0, up).flatMap(varied),
  ];
}

/** Variations on either side of a plan, the nearest first. */
interface Ladder {
  readonly present: Variation;
  readonly below: readonly Variation[];
  readonly above: readonly Variation[];
}

function ladderOf(scenario: Scenario, about: NeighbourAbout): Ladder {
  switch (about.kind) {
    case 'cadence':
      return cadences(scenario);
    case 'seeds': {
      const { sow } = scenario.crops[0]!;
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
    present: cadence(every),
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
  return { present: { cadence: { on } }, below, above };
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
    present: { visits },
    below: VISITS.filter((list) => list.length < days)
      .reverse()
      .map(variation),
    above: VISITS.filter((list) => list.length > days).map(variation),
  };
}

function steps(value: number, limits: Limits, variation: (value: number) => Variation): Ladder {
  const walk = (by: 1 | -1): Variation[] => {
    const found: Variation[] = [];
    for (let now = value; found.length < MOST_STEPS; ) {
      const next = step(now, by, limits);
      if (next === now) break;
      found.push(variation(next));
      now = next;
    }
    return found;
  };
  return { present: variation(value), below: walk(-1), above: walk(1) };
}

/**
 * The next whole number; in steps of about a twentieth where the numbers are large. Never beyond the
 * limits. One step back is as large as the one that led there.
 */
export function step(value: number, by: 1 | -1, { least, most }: Limits): number {
  const from = by === 1 ? value : value - 1;
  const size = Math.max(1, 10 ** Math.floor(Math.log10(Math.max(1, from / 20))));
  return Math.min(most, Math.max(least, value + by * size));
}
