/** A scenario as a plan: names become indices, dates become days from the start, defaults are filled in. */

import { TICK } from '../engine/clock.js';
import { daysEvery, daysOn } from '../models/cadence.js';
import { dayFrom, WEEKDAYS } from '../models/dates.js';
import type {
  CropPlan,
  Growing as GrowingPlan,
  GrowthTime,
  Plan,
  Shape,
  Sowing,
  Visits,
} from '../models/plan.js';
import type { Result } from '../models/result.js';
import type { FaultDraft } from './faults.js';
import type { Regrow, ScenarioGrowing } from './growing-schema.js';
import { shapeOf } from './growth-checks.js';
import { withPhysical } from './physical/growth.js';
import type { Scenario } from './schema.js';

type Crop = Scenario['crops'][number];

/**
 * The plan of a scenario.
 *
 * @param scenario one that `readScenario` has found without fault
 */
export function toPlan(scenario: Scenario): Plan {
  const plan = planOrFaults(scenario);
  if (!plan.ok) throw new RangeError(`a scenario with a fault: ${plan.faults[0]!.found}`);
  return plan.value;
}

/**
 * The same of a scenario whose keys agree: whether a plant can grow as they tell it shows only here.
 * @returns faults if none can
 */
export function planOrFaults(scenario: Scenario): Result<Plan, FaultDraft> {
  return withPhysical(scenario, linePlan(scenario));
}

/** The plan of the line, with the days that the scenario tells. */
function linePlan(scenario: Scenario): Plan {
  const { title, start, weeks, seed, want } = scenario;
  return {
    title,
    start,
    weeks,
    seed,
    visits: toVisits(scenario),
    stages: scenario.stages.map((stage) => ({
      name: stage.name,
      channels: stage.channels,
      holesPerChannel: stage.holes,
      holeAreaCm2: stage.hole_area_cm2 ?? null,
      cleanDays: stage.clean_days,
    })),
    crops: scenario.crops.map((crop) => toCrop(crop, scenario)),
    want: want === undefined ? null : { heads: want.heads, days: daysOn(want.on, start, weeks * 7) },
  };
}

function toVisits({ visits, away, start, weeks }: Scenario): Visits {
  if (visits === 'always') return { kind: 'always' };
  const spans = away.map(({ from, to }) => ({ from: dayFrom(start, from), to: dayFrom(start, to) }));
  const isAway = (day: number): boolean => spans.some(({ from, to }) => from <= day && day <= to);
  const days = daysOn(visits === 'daily' ? WEEKDAYS : visits, start, weeks * 7);
  const gone = daysOn(WEEKDAYS, start, weeks * 7).filter(isAway);
  return {
    kind: 'days',
    days: days.filter((day) => !isAway(day)),
    ...(gone.length === 0 ? {} : { away: { days: gone, visits: days.filter(isAway) } }),
  };
}

function toCrop(crop: Crop, { stages, start, weeks }: Scenario): CropPlan {
  const growing = stages.map(({ name }) => toGrowing(crop.stages[name] as ScenarioGrowing));
  const keeps = (growing.at(-1) as GrowingPlan).keeps;
  return {
    name: crop.name,
    germination: crop.germination,
    sowing: toSowing(crop.sow, start, weeks * 7),
    cuts: crop.cuts,
    regrow: crop.regrow === undefined ? null : { time: toTime(crop.regrow), loss: crop.regrow.loss, keeps },
    headG: crop.head_g ?? null,
    stages: growing,
  };
}

/** `season` is its length [d]. */
function toSowing(sow: Crop['sow'], start: string, season: number): Sowing {
  if ('refill' in sow) return { kind: 'refill' };
  const { seeds, missed } = sow;
  return {
    kind: 'due',
    days: dueDays(sow, start, season),
    seeds,
    ...(missed === undefined ? {} : { missed }),
  };
}

function dueDays(sow: Exclude<Crop['sow'], { refill: true }>, start: string, season: number): number[] {
  if ('every' in sow) return daysEvery(sow.every, season);
  if ('on' in sow) return daysOn(sow.on, start, season);
  return daysIn(sow.dates, start, season).sort((a, b) => a - b);
}

/** Days of the dates that lie in the season, from its start [d]. */
export function daysIn(dates: readonly string[], start: string, season: number): number[] {
  return dates.map((date) => dayFrom(start, date)).filter((day) => day >= 0 && day < season);
}

function toGrowing(growing: ScenarioGrowing): GrowingPlan {
  return { time: toTime(growing), loss: growing.loss, keeps: growing.keeps ?? Number.POSITIVE_INFINITY };
}

function toTime(growing: Regrow): GrowthTime {
  const shape = shapeOf(growing) as Shape;
  if (shape === 'observed') return observedTime(growing.observed as number[]);
  const spread = shape === 'exponential' ? 1 : shape === 'fixed' ? 0 : (growing.spread as number);
  return { shape, days: atLeastTick(growing.days as number), spread, times: [] };
}

/** Mean and population standard deviation of the list: it is all there is to draw from, not a sample of more. */
function observedTime(seen: readonly number[]): GrowthTime {
  const times = seen.map(atLeastTick);
  const days = times.reduce((sum, time) => sum + time, 0) / times.length;
  const variance = times.reduce((sum, time) => sum + (time - days) ** 2, 0) / times.length;
  return { shape: 'observed', days, spread: Math.sqrt(variance) / days, times };
}

/** No plant grows in less than a tick, and what is reckoned from a mean time (holes over days) stays a number. */
function atLeastTick(days: number): number {
  return Math.max(TICK, days);
}
