/** Figures of plans that tell of light, water, work or prices. */

import { lineMatter } from '../../models/physical/line-matter.js';
import { costIsTold } from '../../models/untold-costs.js';
import { amountsOf } from '../takes/amounts.js';
import type { Figure } from './figure.js';
import { perHead } from './per-hole-and-head.js';

/** What a head takes: of plans that tell of it. */
export const TAKES_A_HEAD: readonly Figure[] = [
  {
    name: 'kwh_a_head',
    label: 'kWh a head',
    means: 'What the lamps draw in a season, for each head that is picked.',
    short: 'kWh a head',
    column: 'kWh a head',
    unit: 'kWh',
    decimals: 2,
    better: 'less',
    scope: 'whole',
    isToldOf: ({ physical }) =>
      physical?.stages.some(({ lamps }) => (lamps?.power ?? null) !== null) ?? false,
    of: (sample) => amountsOf(sample)?.light?.kwh_per_head ?? Number.NaN,
  },
  {
    name: 'litres_a_head',
    label: 'litres a head',
    means:
      'Water that plants use in a season, for each head that is picked. Good to a factor of 1.5 until it is scaled to a meter.',
    short: 'litres a head',
    column: 'litres a head',
    unit: 'L',
    decimals: 2,
    better: 'less',
    scope: 'whole',
    isToldOf: (plan) => lineMatter(plan)?.drinks ?? false,
    of: (sample) => perHead(sample.tallies, amountsOf(sample)?.water?.used_l ?? Number.NaN),
  },
  {
    name: 'minutes_a_head',
    label: 'minutes a head',
    means: 'Minutes of work in a season, for each head that is picked.',
    short: 'minutes a head',
    column: 'minutes a head',
    unit: 'min',
    decimals: 1,
    better: 'less',
    scope: 'whole',
    isToldOf: ({ physical }) => (physical?.work ?? null) !== null,
    of: (sample) => perHead(sample.tallies, 60 * (amountsOf(sample)?.work?.hours ?? Number.NaN)),
  },
  {
    name: 'cost_a_head',
    label: 'cost a head',
    means: 'What a season costs, of all that has a price in the scenario, for each head that is picked.',
    short: 'cost a head',
    column: 'cost a head',
    unit: 'money',
    decimals: 2,
    better: 'less',
    scope: 'whole',
    ofDrained: true,
    isToldOf: costIsTold,
    of: (sample) => amountsOf(sample)?.money?.cost_per_head ?? Number.NaN,
  },
];

/** What a season takes and brings in money: of plans that tell of prices. */
export const MONEY_A_SEASON: readonly Figure[] = [
  {
    name: 'cost_a_season',
    label: 'cost of a season',
    means: 'What a season costs, of all that has a price in the scenario.',
    short: 'season costs',
    column: 'cost a season',
    unit: 'money',
    decimals: 2,
    better: 'less',
    scope: 'whole',
    ofDrained: true,
    isToldOf: costIsTold,
    of: (sample) => amountsOf(sample)?.money?.cost.total ?? Number.NaN,
  },
  {
    name: 'margin_a_season',
    label: 'margin of a season',
    means:
      'What the picks of a season earn, less what the season costs, of all that has a price in the scenario.',
    short: 'season margin',
    column: 'margin a season',
    unit: 'money',
    decimals: 2,
    better: 'more',
    scope: 'whole',
    ofDrained: true,
    isToldOf: (plan) =>
      costIsTold(plan) && (plan.physical?.prices?.crops.some(({ sale }) => sale !== null) ?? false),
    of: (sample) => amountsOf(sample)?.money?.margin ?? Number.NaN,
  },
];
