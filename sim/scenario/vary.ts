/** A scenario with another cadence, other seeds, visits, channels or light: the plans that studies compare. */

import { wattsFor } from '../models/channels.js';
import type { Weekday } from '../models/dates.js';
import { failure, type Result, success } from '../models/result.js';
import { type FaultDraft, pathText } from './faults.js';
import { issuesToFaults } from './issues-to-faults.js';
import { changesLight, type LightVariation, lightText, noSuchStage, withLight } from './light.js';
import { planOrFaults } from './plan.js';
import { type Scenario, scenarioSchema } from './schema.js';

export type Cadence =
  | { readonly every: number }
  | { readonly on: readonly Weekday[] }
  | { readonly refill: true };

/** What is changed; what is left out stays as it is. Applies to all crops of the scenario. */
export interface Variation extends LightVariation {
  readonly cadence?: Cadence;
  /** Seeds per sowing. */
  readonly seeds?: number;
  /** Seeds a week, dealt to the sowings of the cadence; at least one seed each. Not together with `seeds`. */
  readonly seedsAWeek?: number;
  readonly visits?: 'daily' | 'always' | readonly Weekday[];
  /** Channels by the name of the stage. */
  readonly channels?: Readonly<Record<string, number>>;
}

type Sow = Scenario['crops'][number]['sow'];

/**
 * The scenario with a variation.
 * @returns faults, a sentence each, if the variation does not fit the scenario, or gives one that no file could hold
 */
export function vary(scenario: Scenario, variation: Variation): Result<Scenario, string> {
  const crops = [];
  for (const crop of scenario.crops) {
    const sow = sowWith(crop.sow, variation);
    if (!sow.ok) return failure(sow.faults.map((fault) => `Crop ${crop.name} ${fault}`));
    crops.push({ ...crop, sow: sow.value });
  }
  const names = scenario.stages.map(({ name }) => name);
  const unknown = Object.keys(variation.channels ?? {}).find((name) => !names.includes(name));
  if (unknown !== undefined) return failure([noSuchStage(unknown, scenario.stages)]);
  const { seedsAWeek } = variation;
  if (seedsAWeek !== undefined && !(seedsAWeek > 0)) {
    // It is no key of a scenario, and none of the seeds that it is dealt to would show it: each sowing has at least one.
    return failure([
      `seedsAWeek must not be ${seedsAWeek}. It must be a number above 0. Example: seedsAWeek: 20`,
    ]);
  }
  if (variation.visits === 'always' && scenario.work !== undefined) {
    return failure([
      'visits must not be always where the scenario tells of work: whoever is always there makes no visits. Leave work out.',
    ]);
  }
  const lit = withLight(scenario, variation);
  if (!lit.ok) return lit;
  const varied: Scenario = {
    ...scenario,
    crops,
    stages: lit.value.map((stage) => withChannels(stage, variation.channels?.[stage.name])),
    visits: variation.visits === undefined ? scenario.visits : (variation.visits as Scenario['visits']),
  };
  const checked = scenarioSchema.safeParse(varied);
  if (!checked.success)
    return failure(issuesToFaults(scenarioSchema, varied, checked.error.issues).map(sentences));
  const faults = growthFaults(varied, variation);
  return faults.length === 0 ? success(varied) : failure(faults);
}

/** Of what is varied only light can keep a plant from growing as the scenario tells. */
function growthFaults(varied: Scenario, variation: Variation): string[] {
  if (!changesLight(variation)) return [];
  const made = planOrFaults(varied);
  if (made.ok) return [];
  const light = lightText(variation).join(', ');
  // Several crops may be refused for the same light.
  return [...new Set(made.faults.map((fault) => `With ${light}: ${sentences(fault)}`))];
}

/** Lamps that were metered hang over every channel alike: more channels draw more. */
export function withChannels(stage: Scenario['stages'][number], channels = stage.channels): typeof stage {
  if (channels === stage.channels) return stage;
  const { watts } = stage;
  if (watts === undefined) return { ...stage, channels };
  return { ...stage, channels, watts: wattsFor(watts, stage.channels, channels) };
}

/** A fault without a file, in whole sentences. */
function sentences({ path, found, expected, nearest, advice }: FaultDraft): string {
  const remedy = nearest == null ? advice : `Did you mean ${nearest}?`;
  const fault = `${pathText(path)} must not be ${found}. It must be ${expected}.`;
  return remedy === undefined ? fault : `${fault} ${remedy}`;
}

/** @returns as a fault the end of a sentence that begins with the crop */
function sowWith(sow: Sow, { cadence, seeds, seedsAWeek }: Variation): Result<Sow, string> {
  if (cadence !== undefined && 'refill' in cadence) return success({ refill: true });
  if (cadence === undefined && seeds === undefined && seedsAWeek === undefined) return success(sow);
  const timing = cadence ?? sow;
  if ('refill' in timing) {
    return failure(['is refilled: it has no seeds per sowing. Give a cadence too.']);
  }
  const each =
    seeds !== undefined
      ? success(seeds)
      : seedsAWeek === undefined
        ? presentSeeds(sow)
        : perSowing(timing, seedsAWeek);
  if (!each.ok) return each;
  if (cadence === undefined) {
    return success({ ...(sow as Exclude<Sow, { refill: true }>), seeds: each.value });
  }
  const rest = 'refill' in sow || sow.missed === undefined ? {} : { missed: sow.missed };
  return success(
    'every' in cadence
      ? { every: cadence.every, seeds: each.value, ...rest }
      : { on: [...cadence.on], seeds: each.value, ...rest },
  );
}

function presentSeeds(sow: Sow): Result<number, string> {
  return 'refill' in sow
    ? failure(['is refilled: another cadence needs seeds. Give the seeds per sowing too.'])
    : success(sow.seeds);
}

/** Seeds of each sowing that come to about so many a week. */
function perSowing(timing: object, aWeek: number): Result<number, string> {
  const { every, on } = timing as { readonly every?: number; readonly on?: readonly Weekday[] };
  if (every === undefined && on === undefined) {
    return failure(['is sown on dates: so many seeds a week mean nothing there. Give a cadence too.']);
  }
  return success(Math.max(1, Math.round(every === undefined ? aWeek / on!.length : (aWeek * every) / 7)));
}

/** A variation in a few words: "every 3 d, 8 seeds". @returns "as it is" if nothing is changed */
export function variationText(variation: Variation): string {
  const { cadence, seeds, seedsAWeek, visits, channels } = variation;
  const parts: string[] = [];
  if (cadence !== undefined) {
    if ('refill' in cadence) parts.push('refill');
    else parts.push('every' in cadence ? `every ${cadence.every} d` : `on ${cadence.on.join('+')}`);
  }
  if (seeds !== undefined) parts.push(`${seeds} ${seeds === 1 ? 'seed' : 'seeds'}`);
  if (seedsAWeek !== undefined) parts.push(`${seedsAWeek} seeds a week`);
  parts.push(...lightText(variation));
  if (visits !== undefined)
    parts.push(typeof visits === 'string' ? `visits ${visits}` : `visits ${visits.join('+')}`);
  for (const [stage, count] of Object.entries(channels ?? {})) parts.push(`${count} x ${stage}`);
  return parts.length === 0 ? 'as it is' : parts.join(', ');
}
