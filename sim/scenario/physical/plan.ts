/** What a scenario tells of light, air, water, shelves, work and prices, as the plan's plain data: names become places, defaults are filled in. */

import { dayFrom } from '../../models/dates.js';
import type {
  Air,
  Climate,
  Conditions,
  CropMatter,
  CropPrices,
  DatedAir,
  LampPlan,
  PhysicalPlan,
  PhysicalStage,
  Prices,
  TankPlan,
  TierPlan,
  WorkTimes,
} from '../../models/physical/plan.js';
import type { Plan } from '../../models/plan.js';
import type { Scenario } from '../schema.js';

type Stage = Scenario['stages'][number];
type Crop = Scenario['crops'][number];
type Told<Key extends keyof Scenario> = NonNullable<Scenario[Key]>;

/**
 * @param scenario one whose keys agree (see checks.ts)
 * @param line the plan of its line, with the days that it tells
 * @returns null where nothing is told beyond the line
 */
export function physicalPlan(scenario: Scenario, line: Plan): PhysicalPlan | null {
  const { stages, crops, climate, water, tank, tiers, work, prices } = scenario;
  const ofStages = stages.some(({ ppfd, channel_size }) => ppfd !== undefined || channel_size !== undefined);
  const asked = ofStages || [climate, water, tank, tiers, work, prices].some((group) => group !== undefined);
  if (!asked) return null;
  return {
    stages: stages.map(physicalStage),
    crops: crops.map((crop, c) => cropMatter(crop, scenario, line.crops[c]!)),
    climate: climate === undefined ? null : climatePlan(climate, scenario.start),
    waterScale: water?.scale ?? 1,
    waterMetered: water?.scale !== undefined,
    tank: tank === undefined ? null : tankPlan(tank),
    tiers: tiers === undefined ? [] : tierPlans(tiers, stages),
    work: work === undefined ? null : workTimes(work, tank !== undefined),
    prices: prices === undefined ? null : pricesPlan(prices, crops),
  };
}

function physicalStage(stage: Stage): PhysicalStage {
  const { channel_size: size } = stage;
  return {
    lamps: lampPlan(stage),
    channelSize:
      size === undefined
        ? null
        : {
            lengthCm: size.length_cm,
            widthCm: size.width_cm,
            heightCm: size.height_cm,
            filmMm: size.film_mm,
            kg: size.kg,
          },
  };
}

function lampPlan({ ppfd, hours = 0, watts, efficacy, reaches = 1 }: Stage): LampPlan | null {
  if (ppfd === undefined) return null;
  const power =
    watts !== undefined
      ? ({ kind: 'metered', watts } as const)
      : efficacy !== undefined
        ? ({ kind: 'made', efficacy, reaches } as const)
        : null;
  return { ppfd, hours, power };
}

/** @returns null of a crop whose head was not weighed */
function cropMatter(
  crop: Crop,
  scenario: Scenario,
  { stages, regrow }: Plan['crops'][number],
): CropMatter | null {
  if (crop.head_g === undefined) return null;
  return {
    dry: crop.dry,
    slaCm2G: crop.sla_cm2_g,
    seedMg: crop.seed_mg,
    emergeDays: crop.emerge_days ?? null,
    left: crop.left,
    regrowDays: regrow?.time.days ?? null,
    stages: scenario.stages.map((stage, s) => {
      const { ready_g, days_at } = crop.stages[stage.name]!;
      const days = stages[s]!.time.days;
      return { days, readyG: ready_g ?? null, daysAt: conditionsAt(days_at, stage, scenario.climate) };
    }),
  };
}

/** What is left out is as in the line; what nobody told of night and germination is then as the day. */
function conditionsAt(
  told: Crop['stages'][string]['days_at'],
  stage: Stage,
  climate: Scenario['climate'],
): Conditions | null {
  if (told === undefined || climate === undefined) return null;
  const airC = told.air_c ?? climate.air_c;
  return {
    ppfd: told.ppfd ?? stage.ppfd ?? 0,
    hours: told.hours ?? stage.hours ?? 0,
    airC,
    nightC: told.night_c ?? climate.night_c ?? airC,
    co2: told.co2 ?? climate.co2,
    germinationC: told.germination_c ?? climate.germination_c ?? airC,
  };
}

function climatePlan(told: Told<'climate'>, start: string): Climate {
  const spells = (told.dated ?? []).map(
    ({ from, to, ...other }): DatedAir => ({
      from: dayFrom(start, from),
      beyond: dayFrom(start, to) + 1,
      air: airOf({ ...told, ...(other as Partial<AirKeys>) }),
    }),
  );
  return { ...airOf(told), dated: spells.sort((a, b) => a.from - b.from) };
}

type AirKeys = Omit<Told<'climate'>, 'dated'>;

/** What nobody told of night and germination is as the day. */
function airOf(told: AirKeys): Air {
  const { air_c: airC, night_c, humidity, night_humidity, germination_c, co2, altitude_m: altitudeM } = told;
  return {
    airC,
    nightC: night_c ?? airC,
    humidity: humidity ?? null,
    nightHumidity: night_humidity ?? humidity ?? null,
    co2,
    germinationC: germination_c ?? airC,
    altitudeM,
  };
}

function tankPlan(tank: Told<'tank'>): TankPlan {
  return {
    litres: tank.litres,
    fullL: tank.full_l,
    lowL: tank.low_l,
    ec: tank.ec ?? null,
    topUpEc: tank.top_up_ec ?? null,
    uptakeEc: tank.uptake_ec ?? null,
    pipesL: tank.pipes_l,
    heldMl: tank.held_ml,
    changeDays: tank.change_days ?? null,
  };
}

function tierPlans(tiers: Told<'tiers'>, stages: readonly Stage[]): TierPlan[] {
  const seen = new Map<string, number>();
  return tiers.map((tier) => {
    const number = (seen.get(tier.stage) ?? 0) + 1;
    seen.set(tier.stage, number);
    return {
      name: tier.name ?? `${tier.stage} ${number}`,
      stage: stages.findIndex(({ name }) => name === tier.stage),
      channels: tier.channels,
      ratedKg: tier.rated_kg ?? null,
      lampsKg: tier.lamps_kg,
      otherKg: tier.other_kg,
      plugG: tier.plug_g,
    };
  });
}

function workTimes(work: Told<'work'>, hasTank: boolean): WorkTimes {
  return {
    sowS: work.sow_s,
    moveS: work.move_s,
    pickS: work.pick_s,
    clearS: work.clear_s,
    cleanS: work.clean_s,
    visitMin: work.visit_min,
    tankMin: hasTank ? work.tank_min : 0,
  };
}

function pricesPlan(prices: Told<'prices'>, crops: readonly Crop[]): Prices {
  return {
    kwh: prices.kwh ?? null,
    waterM3: prices.water_m3 ?? null,
    nutrientsL: prices.nutrients_l ?? null,
    plug: prices.plug ?? null,
    hour: prices.hour ?? null,
    holeDay: prices.hole_day ?? null,
    otherDay: prices.other_day ?? null,
    crops: crops.map(({ name }) => cropPrices(prices, name)),
  };
}

function cropPrices({ seed, head, kg }: Told<'prices'>, name: string): CropPrices {
  const perHead = priceOf(head, name);
  const perKg = priceOf(kg, name);
  return {
    seed: priceOf(seed, name),
    sale:
      perHead !== null
        ? { per: 'head', price: perHead }
        : perKg !== null
          ? { per: 'kg', price: perKg }
          : null,
  };
}

/** The price of one crop, of a price of all or of prices by crop. */
function priceOf(told: Told<'prices'>['head'], crop: string): number | null {
  if (typeof told !== 'object') return told ?? null;
  return Object.hasOwn(told, crop) ? told[crop]! : null;
}
