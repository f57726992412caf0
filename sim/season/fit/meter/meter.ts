/**
 * What rows of the tank tell: the scale of the model's litres, and the conductivity of what plants take up.
 *
 * A figure is `good`, and may be written into a scenario, if at least FEWEST spells (readings beyond the first of a filling) tell of it, its
 * interval is narrower than what it is to take the place of, and nothing speaks against it.
 */

import { isoOfDay } from '../../../models/dates.js';
import { lineMatter } from '../../../models/physical/line-matter.js';
import type { Plan } from '../../../models/plan.js';
import { seasonOfRows } from '../../history/bare-plan.js';
import { seasonBehind } from '../../history/season-behind.js';
import type { LogRow, TankRow } from '../../log/rows.js';
import { LitresPasts } from './litres-past.js';
import type { MeterDoubt, Metered, MeteredTank, MeteredWater } from './metered.js';
import { withoutOtherAir } from './other-air.js';
import { type LeftOutWhy, type Spell, spellsOf, type TankDay, tankDays } from './spells.js';
import { type SaltReading, saltReadings, type UptakeEstimate, uptakeEc } from './uptake.js';
import { meteredSpell, waterScale } from './water-scale.js';

/** Fewest spells between top-ups, or readings beyond the first of each filling. */
export const FEWEST_METERED = 8;
/** From the lower to the upper end of an interval, less than this factor: litres without a meter are good to as much either way. */
const WIDEST = 1.5;
/** A judgement: what lies beyond these is a slip rather than a plant (model: its factor of 1.5 twice over; uptake: half of the least and double the most that is usual). */
const FAR_SCALE = { least: 1 / 2.25, most: 2.25 } as const;
const FAR_UPTAKE = { least: 0.6, most: 5.4 } as const;
/** Largest share of the days between top-ups that may be left out because something is amiss with them. */
const MOST_LEFT_OUT = 0.5;
/** Pasts that are drawn; fewer where very many plants stood, which even out. */
const MOST_PASTS = 40;
const FEWEST_PASTS = 8;
/** Plants of all pasts together. */
const PLANTS = 200_000;

/** What a thread is asked for. Plain data. */
export interface MeterErrand {
  readonly kind: 'meter';
  readonly rows: readonly LogRow[];
  readonly tank: readonly TankRow[];
  readonly plan: Plan;
  /** Whether the log does not fit the plan. */
  readonly refused: boolean;
}

/** Whether there is anything to be told: litres or readings, and a plan of more than the line. */
export function isMetered(tank: readonly TankRow[], plan: Plan | null): plan is Plan {
  return tank.length > 0 && plan?.physical != null;
}

/** @param errand with at least one row of plants */
export function meteredOf({ rows, tank, plan, refused }: Omit<MeterErrand, 'kind'>): Metered {
  const { physical } = plan;
  if (rows.length === 0 || physical == null) return {};
  const season = seasonOfRows(rows, plan);
  const days = tankDays(tank, season.plan.start);
  const visits = [...new Set(season.events.map(({ day }) => day))];
  const spells = spellsOf(days, visits, physical.tank);
  const common: MeterDoubt[] = [
    ...(refused ? [{ why: 'refused_log' } as const] : []),
    ...(season.plan.crops.length > plan.crops.length ? [{ why: 'unknown_crops' } as const] : []),
  ];
  const water = days.some(({ litres }) => litres !== null)
    ? waterOf(spells, season, plan, common)
    : undefined;
  const reads = physical.tank !== null && days.some(({ ec }) => ec !== null);
  return {
    ...(water && { water }),
    ...(reads && { tank: tankOf(days, spells, plan, common) }),
  };
}

function waterOf(
  all: readonly Spell[],
  season: ReturnType<typeof seasonOfRows>,
  plan: Plan,
  common: readonly MeterDoubt[],
): MeteredWater {
  // Crops that only the log has are in no model; the season may begin on another day than the plan.
  const matter = lineMatter({ ...plan, weeks: season.plan.weeks, physical: season.plan.physical! })!;
  const spells = withoutOtherAir(all, matter);
  const nothing = { scale: null, spells: 0, days: 0, litres: 0, in_plants_l: 0, transpired_l: 0 };
  const left_out = spells.flatMap(({ leftOut: why, from, to }) =>
    why === null
      ? []
      : [{ why, from: isoOfDay(season.plan.start, from), to: isoOfDay(season.plan.start, to) }],
  );
  if (!matter.drinks) return { ...nothing, left_out, doubts: [...common, { why: 'untold_line' }] };
  const whole = spells.filter(({ leftOut }) => leftOut === null);
  const marks = [...new Set(whole.flatMap(({ from, to }) => [from, to]))];
  const place = new Map(marks.map((day, i) => [day, i]));
  const pasts = new LitresPasts(seasonBehind(season), matter, marks);
  const count = Math.max(FEWEST_PASTS, Math.min(MOST_PASTS, Math.floor(PLANTS / Math.max(1, pasts.plants))));
  const drawn = Array.from({ length: count }, () => pasts.next());
  const metered = whole.map((spell) => ({
    spell,
    litres: meteredSpell(spell.litres, place.get(spell.from)!, drawn),
  }));
  // Where nothing grows nothing is used by plants.
  const used = metered.filter(({ litres: { givenOff } }) => givenOff.some((one) => one > 0));
  const estimate = waterScale(used.map(({ litres }) => litres));
  const few: MeterDoubt = { why: 'few_top_ups', fewest: FEWEST_METERED };
  if (estimate === null) return { ...nothing, left_out, doubts: [...common, few] };
  const doubts = [
    ...common,
    ...(used.length < FEWEST_METERED ? [few] : []),
    ...doubtsOf(estimate, FAR_SCALE),
    ...(amiss(spells) > MOST_LEFT_OUT * daysIn(spells) ? [{ why: 'left_out' } as const] : []),
  ];
  const { value, low, high, givenOff, inPlants } = estimate;
  return {
    scale: { value, low, high, good: doubts.length === 0 },
    spells: used.length,
    days: daysIn(used.map(({ spell }) => spell)),
    litres: used.reduce((sum, { spell }) => sum + spell.litres, 0),
    in_plants_l: inPlants,
    transpired_l: givenOff,
    left_out,
    doubts,
  };
}

function daysIn(spells: readonly Spell[]): number {
  return spells.reduce((sum, { from, to }) => sum + to - from, 0);
}

/** Why spells are left out of which the log tells what is true: they end with a new filling, lie beside the rows of plants or in other air. */
const NOTHING_AMISS: ReadonlySet<LeftOutWhy> = new Set(['drained', 'untold', 'other_air']);

/** Days of spells that are left out because something is amiss with them. */
function amiss(spells: readonly Spell[]): number {
  return daysIn(spells.filter(({ leftOut }) => leftOut !== null && !NOTHING_AMISS.has(leftOut)));
}

function tankOf(
  days: readonly TankDay[],
  spells: readonly Spell[],
  plan: Plan,
  common: readonly MeterDoubt[],
): MeteredTank {
  const { fullL, topUpEc } = plan.physical!.tank!;
  if (topUpEc === null)
    return { uptake_ec: null, readings: 0, fillings: 0, doubts: [...common, { why: 'untold_line' }] };
  const fillings = saltReadings(days, spells, fullL, topUpEc);
  const readings = fillings.reduce((sum, some) => sum + some.length, 0);
  const estimate = uptakeEc(fillings);
  const few: MeterDoubt = { why: 'few_readings', fewest: FEWEST_METERED };
  const told = { readings, fillings: fillings.length };
  if (estimate === null) return { uptake_ec: null, ...told, doubts: [...common, few] };
  const { value, low, high } = estimate;
  const doubts = [
    ...common,
    ...(readings - fillings.length < FEWEST_METERED ? [few] : []),
    ...doubtsOf(estimate, FAR_UPTAKE),
    ...(new Set(fillings.flatMap(ecsOf)).size === 1 ? [{ why: 'same_readings' } as const] : []),
  ];
  return { uptake_ec: { value, low, high, good: doubts.length === 0 }, ...told, doubts };
}

function ecsOf(readings: readonly SaltReading[]): number[] {
  return readings.map(({ ec }) => ec);
}

/** @param usual what an interval must not lie wholly beyond */
function doubtsOf(
  { low, high }: UptakeEstimate,
  usual: { readonly least: number; readonly most: number },
): MeterDoubt[] {
  return [
    ...(low > 0 && high < WIDEST * low ? [] : [{ why: 'wide_meter', factor: WIDEST } as const]),
    ...(low > usual.most || high < usual.least ? [{ why: 'far_off' } as const] : []),
  ];
}
