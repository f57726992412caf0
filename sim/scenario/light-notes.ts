/** What is to be known of plans whose light was varied: what did not go with it, what did though nobody measured it, what became doubtful. */

import type { Plan } from '../models/plan.js';
import {
  changesLight,
  LIGHT_KEYS,
  type LightKey,
  type LightVariation,
  lightFor,
  lightText,
} from './light.js';
import { physicalWarnings } from './physical/warnings.js';
import type { Scenario } from './schema.js';

/** A scenario that is varied, and what was told of it already. */
export interface Told {
  readonly scenario: Scenario;
  readonly warnings: readonly { readonly message: string }[];
}

/**
 * A sentence each; none where the light stays.
 * @param varied the scenario with the variation, and its plan
 */
export function lightNotes(
  { scenario, warnings }: Told,
  variation: LightVariation,
  varied: { readonly scenario: Scenario; readonly plan: Plan },
): string[] {
  if (!changesLight(variation)) return [];
  const known = warnings.map(({ message }) => message);
  const light = lightText(variation).join(', ');
  return [
    ...daysThatStay(scenario, variation),
    ...wattsThatGo(scenario, variation),
    ...physicalWarnings(varied.scenario, varied.plan)
      .filter(({ message }) => !known.includes(message))
      .map(({ message }) => `${light}: ${message}`),
  ];
}

function stagesOf({ stages }: Scenario, variation: LightVariation, key: LightKey) {
  return stages.filter((stage) => lightFor(variation[key], stage) !== undefined);
}

/** Days are reckoned anew where `days_at` tells the light in which they hold; what it leaves out is taken to be as it is in the line. */
function daysThatStay(scenario: Scenario, variation: LightVariation): string[] {
  const { crops } = scenario;
  const stay = new Map<string, string[]>();
  for (const key of LIGHT_KEYS) {
    for (const { name } of stagesOf(scenario, variation, key)) {
      const fixed = crops.filter(({ stages }) => stages[name]?.days_at?.[key] === undefined);
      if (fixed.length === 0) continue;
      const of = fixed.length === crops.length ? '' : ` of ${fixed.map((crop) => crop.name).join(', ')}`;
      stay.set(`${key}${of}`, [...(stay.get(`${key}${of}`) ?? []), name]);
    }
  }
  if (stay.size === 0) return [];
  const what = [...stay].map(([of, names]) => `${of} in ${names.join(', ')}`);
  return [
    `Days were not changed for ${what.join('; ')}, only what the lamps draw: days follow the light where days_at tells in which they hold.`,
  ];
}

function wattsThatGo(scenario: Scenario, variation: LightVariation): string[] {
  const metered = stagesOf(scenario, variation, 'ppfd').filter(({ watts }) => watts !== undefined);
  if (metered.length === 0) return [];
  return [
    `Watts of ${metered.map(({ name }) => name).join(', ')} were metered at the ppfd of the scenario and are taken to go with ppfd: meter them again.`,
  ];
}
