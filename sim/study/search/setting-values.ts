/** What may be chosen in a search: the values of each setting among its candidates. */

import type { Settings } from './candidates.js';

/** By the keys of the scenario file; settings that no candidate has are left out. */
export interface SettingValues {
  readonly every?: readonly number[];
  readonly on?: readonly (readonly string[])[];
  readonly seeds?: readonly number[];
  readonly channels?: Readonly<Record<string, readonly number[]>>;
  readonly visits?: readonly NonNullable<Settings['visits']>[];
}

export function settingValuesOf(settings: readonly Settings[]): SettingValues {
  const ascending = (numbers: readonly (number | undefined)[]): number[] =>
    distinct(numbers).sort((a, b) => a - b);
  const stages = Object.keys(settings[0]!.channels ?? {});
  const all = {
    every: ascending(settings.map(({ every }) => every)),
    on: distinct(settings.map(({ on }) => on)),
    seeds: ascending(settings.map(({ seeds }) => seeds)),
    channels: Object.fromEntries(
      stages.map((stage) => [stage, ascending(settings.map(({ channels }) => channels?.[stage]))]),
    ),
    visits: distinct(settings.map(({ visits }) => visits)),
  };
  return Object.fromEntries(Object.entries(all).filter(([, values]) => Object.keys(values).length > 0));
}

/** Each value once; what is not given is left out. */
function distinct<Value>(values: readonly (Value | undefined)[]): Value[] {
  const seen = new Map<string, Value>();
  for (const value of values) if (value !== undefined) seen.set(JSON.stringify(value), value);
  return [...seen.values()];
}
