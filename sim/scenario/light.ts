/** A scenario with other light: what is changed, what comes with it, what it is called. */

import { wattsFor } from '../models/channels.js';
import type { Limits } from '../models/limits.js';
import { failure, type Result, success } from '../models/result.js';
import { HOURS, PPFD } from './physical/limits.js';
import type { Scenario } from './schema.js';

/** A number for some stages by their names, or for all lit stages alike. */
export type OfStages = number | Readonly<Record<string, number>>;

/** Other light; what is left out stays as it is. */
export interface LightVariation {
  /** Light at the leaves [umol m-2 s-1], above 0. Watts of the stage that were metered go with it. */
  readonly ppfd?: OfStages;
  /** Hours a day for which the lamps burn, above 0. */
  readonly hours?: OfStages;
}

/** Keys of a stage that make its light. */
export const LIGHT_KEYS = ['ppfd', 'hours'] as const;
export type LightKey = (typeof LIGHT_KEYS)[number];

/** What may be tried of them: what is lit stays lit. */
export const LIT: Readonly<Record<LightKey, Limits>> = {
  ppfd: { least: 1, most: PPFD.most },
  hours: { least: 0.1, most: HOURS.most },
};

type Stage = Scenario['stages'][number];

export function changesLight({ ppfd, hours }: LightVariation): boolean {
  return ppfd !== undefined || hours !== undefined;
}

/**
 * The stages with other light; the keys are checked by whoever checks the scenario.
 * @returns faults, a sentence each, if the light is none, or of a stage that is not there or not lit
 */
export function withLight(scenario: Scenario, variation: LightVariation): Result<Stage[], string> {
  const { stages } = scenario;
  const faults = LIGHT_KEYS.flatMap((key) => lightFaults(scenario, key, variation[key]));
  if (faults.length > 0) return failure(faults);
  return success(
    stages.map((stage) => {
      const ppfd = lightFor(variation.ppfd, stage) ?? stage.ppfd;
      const hours = lightFor(variation.hours, stage) ?? stage.hours;
      if (ppfd === stage.ppfd && hours === stage.hours) return stage;
      const watts = stage.watts === undefined ? {} : { watts: wattsFor(stage.watts, stage.ppfd!, ppfd!) };
      return { ...stage, ppfd, hours, ...watts };
    }),
  );
}

function lightFaults({ stages }: Scenario, key: LightKey, values: OfStages | undefined): string[] {
  if (values === undefined) return [];
  const dim = (value: number): string[] =>
    value > 0
      ? []
      : [`${key} must not be ${value} where light is varied. It must be above 0: what is lit stays lit.`];
  if (typeof values === 'number') {
    if (stages.some(isLit)) return dim(values);
    return [
      `There is no light to change: the scenario tells of none. Give a stage its lamps. Example: ${LAMPS}`,
    ];
  }
  return Object.entries(values).flatMap(([name, value]) => {
    const stage = stages.find((one) => one.name === name);
    if (stage === undefined) return [noSuchStage(name, stages)];
    if (isLit(stage)) return dim(value);
    return [
      `Stage ${name} must not be given other ${key}: the scenario tells of no light there. Leave it out, or give it its lamps. Example: ${LAMPS}`,
    ];
  });
}

const LAMPS = 'ppfd: 200, hours: 16';

/** The fault of a name that no stage has. */
export function noSuchStage(name: string, stages: readonly Pick<Stage, 'name'>[]): string {
  return `There is no stage ${name}. The stages are ${stages.map((one) => one.name).join(', ')}.`;
}

function isLit({ ppfd = 0, hours = 0 }: Stage): boolean {
  return ppfd > 0 && hours > 0;
}

/** What a stage is to have; undefined: what it has. */
export function lightFor(values: OfStages | undefined, stage: Stage): number | undefined {
  if (typeof values !== 'object') return isLit(stage) ? values : undefined;
  return Object.hasOwn(values, stage.name) ? values[stage.name] : undefined;
}

/** In a few words, as parts of a plan's name: "finishing 200 µmol, 16 h", "lamps 14 h". */
export function lightText({ ppfd, hours }: LightVariation): string[] {
  const words = { ppfd: (value: number) => `${value} µmol`, hours: (value: number) => `${value} h` };
  const all = new Map<string, string[]>();
  for (const [key, values] of [['ppfd', ppfd] as const, ['hours', hours] as const]) {
    const named = typeof values === 'object' ? Object.entries(values) : [[ALL_LIT, values] as const];
    for (const [name, value] of named) {
      if (value !== undefined) all.set(name, [...(all.get(name) ?? []), words[key](value)]);
    }
  }
  return [...all].map(([name, values]) => `${name} ${values.join(', ')}`);
}

/** What all lit stages together are called. */
const ALL_LIT = 'lamps';
