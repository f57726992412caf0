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
  const { every, on, seeds, visits } = {
    every: distinct(settings.map((one) => one.every)).sort((a, b) => a - b),
    on: distinct(settings.map((one) => one.on)),
    seeds: distinct(settings.map((one) => one.seeds)).sort((a, b) => a - b),
    visits: distinct(settings.map((one) => one.visits)),
  };
  const stages = Object.keys(settings[0]!.channels ?? {});
  const counts = (stage: string): number[] =>
    distinct(settings.map(({ channels }) => channels?.[stage])).sort((a, b) => a - b);
  return {
    ...(every.length > 0 ? { every } : {}),
    ...(on.length > 0 ? { on } : {}),
    ...(seeds.length > 0 ? { seeds } : {}),
    ...(stages.length > 0
      ? { channels: Object.fromEntries(stages.map((stage) => [stage, counts(stage)])) }
      : {}),
    ...(visits.length > 0 ? { visits } : {}),
  };
}

/** Each value once; what is not given is left out. */
function distinct<Value>(values: readonly (Value | undefined)[]): Value[] {
  const seen = new Map<string, Value>();
  for (const value of values) if (value !== undefined) seen.set(JSON.stringify(value), value);
  return [...seen.values()];
}
