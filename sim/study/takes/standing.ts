/** What holds of a plan whatever a season brings: how its crops grow, how long its tank lasts, what its shelves bear. Names are those of JSON. */

import { litresFactor } from '../../models/physical/assumes.js';
import { cropDays } from '../../models/physical/crop-course.js';
import { type LineMatter, lineMatter } from '../../models/physical/line-matter.js';
import { tierLoad } from '../../models/physical/load.js';
import { idleHoleDay } from '../../models/physical/money.js';
import { drainBackL, hoursToWilting, spillL } from '../../models/physical/pump-stop.js';
import { daysToLow } from '../../models/physical/tank.js';
import { everyHoleGrowingL, readyPlants, thirstyStages } from '../../models/physical/thirst.js';
import { wholeFreshG } from '../../models/physical/tissue.js';
import type { Plan } from '../../models/plan.js';
import { type StagingFigures, stagingOf } from './staging.js';

export interface StandingFigures {
  readonly growth?: readonly GrowthFigures[];
  readonly staging?: readonly StagingFigures[];
  readonly water?: WaterStanding;
  readonly tank?: TankStanding;
  readonly load?: readonly TierLoad[];
  readonly money?: MoneyStanding;
}

/** How far litres can be trusted. */
export interface WaterStanding {
  /** The factor that litres are good to; null once a meter has scaled them. */
  readonly good_to_factor: number | null;
}

/** What an empty hole costs. */
export interface MoneyStanding {
  /** A day of it, of each stage, in the grower's own money; `null` where no price tells. */
  readonly idle_hole_day: readonly (number | null)[];
}

/** How long the tank lasts, and what a stop of the pump does. */
export interface TankStanding {
  /** From full to low with a plant growing in every hole [d]; null where water is not told. */
  readonly days_to_low: number | null;
  /** What the tank cannot take back [L]; null where a channel's size is not told. */
  readonly spill_l: number | null;
  /** At least and at most, with the lamps on and off [h]; null where water is not told. */
  readonly dry_hours: { readonly on: Range; readonly off: Range } | null;
}

/** What a tier bears. */
export interface TierLoad {
  readonly tier: string;
  /** With the pump running, and with channels full to the brim [kg]. */
  readonly kg: number;
  readonly flooded_kg: number;
  /** What its label allows beyond the second [kg]; null where the label is not told. */
  readonly margin_kg: number | null;
}

export type Range = readonly [least: number, most: number];

export interface GrowthFigures {
  readonly crop: string;
  /** Of each span [g of plant per mol on leaves]. */
  readonly efficiency: readonly number[];
  readonly regrow_efficiency: number | null;
  /** Fresh shoot at the end of each stage [g]. */
  readonly ready_g: readonly number[];
  /** Days under the line's conditions over those that were told, by stage. */
  readonly ratio: readonly number[];
}

/** @returns null where the plan tells of nothing but holes */
export function standingOf(plan: Plan): StandingFigures | null {
  const matter = lineMatter(plan);
  if (matter === null) return null;
  const { tank, tiers, prices } = matter.physical;
  const load = loadOf(plan, matter);
  const staging = stagingOf(plan, matter);
  return {
    ...(matter.courses.some((course) => course !== null) && { growth: growthOf(plan, matter) }),
    ...(staging.length > 0 && { staging }),
    ...(matter.drinks && { water: { good_to_factor: litresFactor(plan) } }),
    ...(tank !== null && { tank: tankOf(plan, matter) }),
    ...(tiers.length > 0 && { load }),
    ...(prices !== null && {
      money: {
        idle_hole_day: matter.stages.map(({ kwhPerHoleDay }) => idleHoleDay(prices, kwhPerHoleDay)),
      },
    }),
  };
}

function growthOf({ crops }: Plan, { courses, physical }: LineMatter): GrowthFigures[] {
  return crops.flatMap(({ name }, c) => {
    const course = courses[c]!;
    if (course === null) return [];
    const days = physical.climate && cropDays(physical, c, course, physical.climate);
    return [
      {
        crop: name,
        efficiency: course.efficiencies,
        regrow_efficiency: course.regrowEfficiency,
        ready_g: course.readyG,
        // What is refused is refused where the scenario is read.
        ratio: days?.ok === true ? days.value.ratios : course.stages.map(() => 1),
      },
    ];
  });
}

function tankOf(plan: Plan, { physical, courses, grows }: LineMatter): NonNullable<StandingFigures['tank']> {
  const tank = physical.tank!;
  const back = drainBackL(
    tank,
    plan.stages.map(({ channels }, s) => ({ channels, size: physical.stages[s]!.channelSize })),
  );
  const thirsty = grows ? thirstyStages(plan, physical, courses) : null;
  const hours = (lamps: 'on' | 'off'): Range | null => {
    const found = thirsty && hoursToWilting(tank.heldMl, readyPlants(thirsty, lamps, physical.waterScale));
    return found && [found.least, found.most];
  };
  const on = hours('on');
  const off = hours('off');
  return {
    days_to_low: thirsty && daysToLow(tank, everyHoleGrowingL(thirsty, physical.waterScale)),
    spill_l: back === null ? null : spillL(tank, back),
    dry_hours: on && off && { on, off },
  };
}

/** Of tiers whose stage's channels and heaviest plants are known. */
function loadOf(plan: Plan, { physical, courses, grows }: LineMatter): NonNullable<StandingFigures['load']> {
  return physical.tiers.flatMap((tier) => {
    const size = physical.stages[tier.stage]!.channelSize;
    if (size === null || !grows) return [];
    const plantG = courses.map((course) => {
      const place = course!.stages.indexOf(tier.stage);
      return place < 0 ? 0 : wholeFreshG(course!.curves[place]!.toG, course!.dry);
    });
    const { holesPerChannel } = plan.stages[tier.stage]!;
    const { kg, floodedKg, marginKg } = tierLoad(tier, size, holesPerChannel, Math.max(...plantG));
    return [{ tier: tier.name, kg, flooded_kg: floodedKg, margin_kg: marginKg }];
  });
}
