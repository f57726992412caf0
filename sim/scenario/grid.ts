/** All plans within some limits: every cadence with every number of seeds, all channels and all visits that are named. */

import * as route from '../models/route.js';
import type { Scenario } from './schema.js';
import type { Cadence, Variation } from './vary.js';

/** Channels that a stage may have. */
export interface StageLimit {
  readonly stage: string;
  readonly counts: readonly number[];
}

/** What may be chosen. An empty list: as in the scenario. */
export interface Grid {
  readonly cadences: readonly Exclude<Cadence, { readonly refill: true }>[];
  /** Seeds per sowing. */
  readonly seeds: readonly number[];
  readonly channels: readonly StageLimit[];
  readonly visits: readonly NonNullable<Variation['visits']>[];
}

/** How many plans there are within the limits. */
export function gridSize({ cadences, seeds, channels, visits }: Grid): number {
  return [cadences, seeds, visits, ...channels.map(({ counts }) => counts)].reduce(
    (product, list) => product * Math.max(1, list.length),
    1,
  );
}

/** The plans within the limits; what is named last changes first. */
export function variationsWithin({ cadences, seeds, channels, visits }: Grid): Variation[] {
  let variations: Variation[] = [{}];
  const times = <Item>(
    items: readonly Item[],
    change: (before: Variation, item: Item) => Variation,
  ): void => {
    if (items.length === 0) return;
    variations = variations.flatMap((before) => items.map((item) => change(before, item)));
  };
  times(cadences, (before, cadence) => ({ ...before, cadence }));
  times(seeds, (before, count) => ({ ...before, seeds: count }));
  for (const { stage, counts } of channels) {
    times(counts, (before, count) => ({ ...before, channels: { ...before.channels, [stage]: count } }));
  }
  times(visits, (before, days) => ({ ...before, visits: days }));
  return variations;
}

/** Most numbers of seeds of the limits that nobody gave. */
const SEED_STEPS = 15;
/** Channels more and fewer of the limits that nobody gave. */
const CHANNELS_AROUND = 2;

/**
 * Limits around a scenario, for those who give none: a sowing every 1 to 7 days, half to twice the seeds, up to two channels more or
 * fewer in the last two stages. Of several crops the seeds stay; where one is sown on dates or refilled the cadence stays.
 */
export function gridAround(scenario: Scenario): Grid {
  const { crops, stages } = scenario;
  const last = route.last(scenario);
  const lastTwo = [route.before(scenario, last), last].flatMap((s) => stages[s] ?? []);
  const regular = crops.every(({ sow }) => 'every' in sow || 'on' in sow);
  const sow = crops.length === 1 ? crops[0]!.sow : null;
  return {
    cadences: regular ? [1, 2, 3, 4, 5, 6, 7].map((every) => ({ every })) : [],
    seeds: sow === null || 'refill' in sow ? [] : spaced(Math.ceil(sow.seeds / 2), 2 * sow.seeds, SEED_STEPS),
    channels: lastTwo.map(({ name, channels }) => ({
      stage: name,
      counts: spaced(Math.max(1, channels - CHANNELS_AROUND), channels + CHANNELS_AROUND, Infinity),
    })),
    visits: [],
  };
}

/** Whole numbers from `first` to at most `last`, evenly spaced, in at most `steps` steps. */
function spaced(first: number, last: number, steps: number): number[] {
  const step = Math.max(1, Math.ceil((last - first) / steps));
  const numbers: number[] = [];
  for (let number = first; number <= last; number += step) numbers.push(number);
  return numbers;
}
