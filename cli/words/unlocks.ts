/** Which keys of a scenario would tell more: a sentence for each group of which nothing is told. */

import type { Plan } from '../../sim/models/plan.js';
import { costsUnpriced } from '../../sim/models/untold-costs.js';
import { listed } from './numbers.js';

export function unlocks(plan: Plan): string[] {
  const { stages, crops, physical } = plan;
  const unpriced = costsUnpriced(plan);
  const lit = physical?.stages.some(({ lamps }) => lamps !== null) ?? false;
  const shaped = physical?.stages.some(({ channelSize }) => channelSize !== null) ?? false;
  const weighed =
    crops.every(({ headG }) => headG !== null) && stages.every(({ holeAreaCm2 }) => holeAreaCm2 !== null);
  const elsewhere =
    physical?.crops.some((crop) => crop?.stages.some(({ daysAt }) => daysAt !== null)) ?? false;
  const { climate = null, tank = null, tiers = [], work = null, prices = null } = physical ?? {};
  const groups: [told: boolean, sentence: string][] = [
    [lit, 'ppfd, hours and efficacy (or watts) of stages tell what the lamps draw.'],
    [weighed, 'hole_area_cm2 of stages and head_g of crops tell kilograms, light on leaves.'],
    [elsewhere, 'days_at beside days, with climate, tells days in other light and warmth.'],
    [
      climate !== null && climate.humidity !== null,
      'climate with air_c and humidity tells the litres that plants take.',
    ],
    [tank !== null, 'tank tells its level between visits, and what spills when the pump stops.'],
    [
      shaped && tiers.length > 0,
      'channel_size of stages, and tiers tell what shelves bear, against their label.',
    ],
    [work !== null, 'work tells the minutes of a visit, the hours of a week.'],
    [prices !== null, 'prices tell what a head costs, and what it earns.'],
    [unpriced.length === 0, `prices tell nothing of ${listed(unpriced)} yet: costs leave that out.`],
    [
      prices === null || prices.crops.some(({ sale }) => sale !== null),
      'prices.head (or kg) tells what a head earns, the margin of a season.',
    ],
  ];
  return groups.filter(([told]) => !told).map(([, sentence]) => sentence);
}
