/** What reads well of light, air, water, shelves and crops but is probably not meant, or should be known before it is built. */

import { isUsual, USUAL_EFFICIENCY } from '../../models/physical/course.js';
import { cropCourse, cropDays } from '../../models/physical/crop-course.js';
import { dailyLight } from '../../models/physical/light.js';
import type { PhysicalPlan } from '../../models/physical/plan.js';
import type { Plan } from '../../models/plan.js';
import * as route from '../../models/route.js';
import { costIsTold } from '../../models/untold-costs.js';
import type { Path, WarningDraft } from '../faults.js';
import type { Scenario } from '../schema.js';
import { spanOutside } from '../season-dates.js';
import { celsiusAdvice, FAHRENHEIT } from './fahrenheit.js';
import { shelfWarnings, short } from './shelf-warnings.js';

export function physicalWarnings(scenario: Scenario, plan: Plan): WarningDraft[] {
  const { physical } = plan;
  if (!physical) return [];
  return [
    ...lampWarnings(scenario),
    ...airWarnings(scenario),
    ...cropWarnings(scenario, plan, physical),
    ...tankWarnings(scenario),
    ...priceWarnings(scenario, plan),
    ...shelfWarnings(plan, physical),
  ];
}

/** Light of a joule: fluorescent lamps (Nelson & Bugbee 2014), and the most that blue and red diodes can give (Kusuma et al. 2020) [umol/J]. */
const EFFICACY = { least: 0.9, most: 4.1 } as const;
/** Light of a day in which heads hardly grow (common practice), and above which tips of lettuce burn (Brechner & Both) [mol m-2 d-1]. */
const LIGHT = { least: 6, most: 17 } as const;

function lampWarnings({ stages }: Scenario): WarningDraft[] {
  const told = stages.some(({ ppfd }) => ppfd !== undefined);
  const last = route.last({ stages });
  return stages.flatMap(({ name, ppfd, hours, efficacy }, s): WarningDraft[] => {
    if (ppfd === undefined) {
      const message = `Nothing is told of light in ${name}: its lamps are in no sum, and plants are taken to grow in the dark there. Write ppfd: 0 if it is dark.`;
      return told ? [{ path: ['stages', s], message }] : [];
    }
    const warnings: WarningDraft[] = [];
    if (efficacy !== undefined && !within(efficacy, EFFICACY)) {
      const message = `${efficacy} umol/J: lamps have ${EFFICACY.least} to ${EFFICACY.most}. Is it light (umol) over power (W)?`;
      warnings.push({ path: ['stages', s, 'efficacy'], message });
    }
    const light = dailyLight(ppfd, hours ?? 0);
    if (s === last && light > 0 && !within(light, LIGHT)) {
      const message =
        light > LIGHT.most
          ? `${short(light)} mol of light a day and m2 in ${name}: above ${LIGHT.most} the tips of leaves may burn.`
          : `${short(light)} mol of light a day and m2 in ${name}: below ${LIGHT.least} heads hardly grow.`;
      warnings.push({ path: ['stages', s, 'ppfd'], message });
    }
    return warnings;
  });
}

/** Air in which leaves grow [degC]. */
const WARMTH = { least: 10, most: 30 } as const;
/** Relative humidity of a room with plants [%]. */
const HUMIDITY = { least: 40, most: 90 } as const;
/** Above it seeds of lettuce may refuse [degC]. */
const SEEDS_REFUSE = 25;

function airWarnings({ climate, crops, start, weeks }: Scenario): WarningDraft[] {
  if (climate === undefined) return [];
  const { dated = [] } = climate;
  return [
    ...oddAir(climate, ['climate']),
    ...dated.flatMap((spell, i) => oddAir(spell, ['climate', 'dated', i])),
    ...dated.flatMap((spell, i) => spanOutside(spell, ['climate', 'dated', i], start, weeks)),
    ...(dated.length > 0 ? idleSpells(climate, crops) : []),
  ];
}

/** Spells by which no days can go. */
function idleSpells(climate: NonNullable<Scenario['climate']>, crops: Scenario['crops']): WarningDraft[] {
  const reckoned = crops.some(({ stages }) =>
    Object.values(stages).some(({ days_at }) => days_at !== undefined),
  );
  if (reckoned) return [];
  const what = climate.humidity === undefined ? 'nothing (no humidity is told either)' : 'nothing but water';
  const message = `The spells of dated change ${what}: no crop says with days_at in what air its days hold, so they are the same in any.`;
  return [{ path: ['climate', 'dated'], message }];
}

type AirKey = 'air_c' | 'night_c' | 'humidity' | 'night_humidity' | 'germination_c';

/** @param path of the map that tells of it */
function oddAir(air: { readonly [Key in AirKey]?: number | undefined }, path: Path): WarningDraft[] {
  const warnings: WarningDraft[] = [];
  const note = (key: AirKey, message: string) => void warnings.push({ path: [...path, key], message });
  for (const key of ['air_c', 'night_c'] as const) {
    const value = air[key];
    if (value === undefined || within(value, WARMTH)) continue;
    note(
      key,
      value > FAHRENHEIT
        ? `${value} degC is no air for plants. ${celsiusAdvice(value)}`
        : `${value} degC: leaf crops grow from ${WARMTH.least} to ${WARMTH.most}.`,
    );
  }
  for (const key of ['humidity', 'night_humidity'] as const) {
    const value = air[key];
    if (value === undefined || within(value, HUMIDITY)) continue;
    note(
      key,
      value <= 1
        ? `${value} per cent is dry as nothing. A share? Then write ${short(value * 100)}.`
        : `${value} per cent: rooms with plants have ${HUMIDITY.least} to ${HUMIDITY.most}.`,
    );
  }
  const { germination_c: germination } = air;
  if (germination !== undefined && germination > SEEDS_REFUSE) {
    note(
      'germination_c',
      `${germination} degC: above ${SEEDS_REFUSE} seeds of lettuce may refuse to sprout.`,
    );
  }
  return warnings;
}

/** Dry share of fresh heads. */
const DRY = { least: 0.035, most: 0.07 } as const;
/** Names by which lettuce goes: the growth model behind `days_at` knows no other crop. */
const LETTUCE =
  /lettuce|butterhead|romaine|\bcos\b|batavia|iceberg|crisphead|lollo|oak ?-?leaf|little gem|lactuca/i;

function cropWarnings({ crops, stages }: Scenario, plan: Plan, physical: PhysicalPlan): WarningDraft[] {
  return crops.flatMap((crop, c): WarningDraft[] => {
    const warnings: WarningDraft[] = [];
    if (crop.head_g === undefined) return warnings;
    if (!within(crop.dry, DRY)) {
      const message = `${crop.dry} dry: heads of leaf crops have ${DRY.least} to ${DRY.most} of their fresh mass. Dry one in an oven.`;
      warnings.push({ path: ['crops', c, 'dry'], message });
    }
    const course = cropCourse(plan, physical, c);
    if (course === null || !course.ok) return warnings;
    const { least, most } = USUAL_EFFICIENCY;
    const { efficiencies, regrowEfficiency } = course.value;
    const odd = [...efficiencies, ...(regrowEfficiency === null ? [] : [regrowEfficiency])].filter(
      (efficiency) => !isUsual(efficiency),
    );
    if (odd.length > 0) {
      const message = `${crop.name} would have to make ${odd.map(short).join(' and ')} g of plant of a mol of light on its leaves; crops make ${least} to ${most}. Look at head_g, dry, days, ppfd, hours and the areas.`;
      warnings.push({ path: ['crops', c, 'head_g'], message });
    }
    const days = physical.climate && cropDays(physical, c, course.value, physical.climate);
    const told = stages.find(({ name }) => crop.stages[name]!.days_at !== undefined);
    if (days === null || !days.ok || told === undefined) return warnings;
    const path = ['crops', c, 'stages', told.name, 'days_at'];
    if (!LETTUCE.test(crop.name)) {
      const message = `The days of ${crop.name} are reckoned as those of lettuce change: the growth model knows no other crop.`;
      warnings.push({ path, message });
    }
    const spells = physical.climate!.dated.map(({ air }) => cropDays(physical, c, course.value, air)!);
    if ([days, ...spells].some((one) => one.ok && one.value.atBest)) {
      const message = `Above 24 degC the days of ${crop.name} are at best: tipburn, bolting and root rot are left out.`;
      warnings.push({ path, message });
    }
    return warnings;
  });
}

/** No water for plants has more [mS/cm]. */
const EC_MOST = 5;

function tankWarnings({ tank }: Scenario): WarningDraft[] {
  return (['ec', 'top_up_ec', 'uptake_ec'] as const).flatMap((key) => {
    const value = tank?.[key];
    if (value === undefined || !(value > EC_MOST)) return [];
    const message = `${value} mS/cm is too much for leaf crops. uS/cm? Then write ${short(value / 1000)}.`;
    return [{ path: ['tank', key], message }];
  });
}

/** Prices that no sum has anything of, and crops without a price where others have one. */
function priceWarnings({ prices, crops }: Scenario, plan: Plan): WarningDraft[] {
  if (prices === undefined) return [];
  const { head, kg, seed } = prices;
  return [
    ...(costIsTold(plan) ? [] : [{ path: ['prices'], message: NO_COST }]),
    ...crops.flatMap(({ name, head_g }) => {
      const byKg = isOf(kg, name);
      if (byKg && head_g === undefined) {
        const path = typeof kg === 'object' ? ['prices', 'kg', name] : ['prices', 'kg'];
        return [{ path, message: `Heads of ${name} have no head_g: they are in no sum of what is earned.` }];
      }
      if (byKg || isOf(head, name) || (head === undefined && kg === undefined)) return [];
      const path = ['prices', head === undefined ? 'kg' : 'head'];
      return [{ path, message: `Heads of ${name} have no price: what they earn is in no margin.` }];
    }),
    ...crops.flatMap(({ name }) =>
      seed === undefined || isOf(seed, name)
        ? []
        : [
            {
              path: ['prices', 'seed'],
              message: `Seeds of ${name} have no price: they are in no sum of costs.`,
            },
          ],
    ),
  ];
}

const NO_COST =
  'No cost can be told from these prices, and so no margin. kwh needs lamps, water_m3 and nutrients_l climate and crops, hour work. Example: prices: {seed: 0.03, other_day: 0.2, head: 2.5}';

/** Is a price told of this crop? */
function isOf(price: number | Readonly<Record<string, number>> | undefined, crop: string): boolean {
  return typeof price === 'object' ? Object.hasOwn(price, crop) : price !== undefined;
}

function within(value: number, { least, most }: { readonly least: number; readonly most: number }): boolean {
  return value >= least && value <= most;
}
