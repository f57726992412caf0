/**
 * What a mean season takes: light, mass, water, tank, work and money, from tallies and what the plan tells. Every figure but those of
 * a head is linear in the columns of the tallies, so the mean season's is the mean of the seasons'.
 *
 * Names are those of JSON. A group that the plan does not ask for is absent; a figure for which it tells too little is null.
 */

import { GROWING, PICKED, STATE_COUNT, STATES } from '../../models/ledger.js';
import { type LineMatter, lineMatter, looksInTank } from '../../models/physical/line-matter.js';
import { anyCost, type Costs, costsOf, revenueOf, totalCost } from '../../models/physical/money.js';
import { hoursOf, type WorkMinutes } from '../../models/physical/work.js';
import { holesOfLine, type Plan, seasonDays, visitDays } from '../../models/plan.js';
import {
  lampsKwh,
  minutesTaken,
  pickedKg,
  sumIfAll,
  type Taken,
  waterTaken,
} from '../../models/taken-amounts.js';
import { changeVisits, TANK_COLUMNS } from '../../models/takes.js';
import type { TakesTallies } from '../../seasons/takes-tallies.js';
import type { Tallies } from '../../seasons/tallies.js';

/** A number, or what becomes of it (with an error, say). */
export interface Amounts<Of = number> {
  readonly light?: LightAmounts<Of>;
  readonly mass?: { readonly picked_kg: Of };
  readonly water?: WaterAmounts<Of>;
  readonly tank?: TankAmounts<Of>;
  readonly work?: WorkAmounts<Of>;
  readonly money?: MoneyAmounts<Of>;
}

export interface LightAmounts<Of> {
  readonly kwh: Of | null;
  readonly kwh_per_head: Of | null;
  readonly stages: readonly StageLightAmounts<Of>[];
}

export interface StageLightAmounts<Of> {
  readonly name: string;
  /** null where nothing tells what the lamps draw. */
  readonly kwh: Of | null;
  /**
   * The states of the ledger, `growing` split into `leaves` and `gaps` where leaves are known, else these are null; null without
   * an area.
   */
  readonly mol: Readonly<Record<string, Of | null>> | null;
}

export interface WaterAmounts<Of> {
  readonly used_l: Of;
  readonly transpired_l: Of;
  readonly picked_l: Of;
  readonly standing_l: Of;
  readonly thrown_out_l: Of;
  readonly seeds_l: Of;
}

export interface TankAmounts<Of> {
  readonly topped_up_l: Of | null;
  readonly drained_l: Of | null;
  readonly lowest_l: Of | null;
  readonly most_between_visits_l: Of | null;
  /** null without a forecast of the conductivity. */
  readonly ec_good_days: Of | null;
}

export interface WorkAmounts<Of> {
  readonly hours: Of;
  /** By deed. */
  readonly minutes: Readonly<Record<keyof WorkMinutes, Of>>;
  /** Of a season's visits, how long the middle one takes, and that which 1 in 10 exceeds [min]; null where nobody comes. */
  readonly visit_min: { readonly p50: Of; readonly p90: Of } | null;
}

export interface MoneyAmounts<Of> {
  readonly cost: Readonly<Record<keyof Costs, Of | null>> & { readonly total: Of };
  readonly revenue: Of | null;
  readonly margin: Of | null;
  readonly cost_per_head: Of | null;
}

/** What amounts are told from. */
export interface TakesSample {
  readonly plan: Plan;
  readonly tallies: Tallies;
  /** Where none of these seasons had its tank looked at, what is told of it comes from these; of the same plan. */
  readonly whole: Tallies;
  /** To see what an error in the litres drained does: so many more are taken for drained. */
  readonly drainedMoreL?: number;
}

/** @returns null where the plan tells of nothing but holes */
export function amountsOf({ plan, tallies, whole, drainedMoreL = 0 }: TakesSample): Amounts | null {
  const matter = lineMatter(plan);
  const { takes } = tallies;
  if (matter === null || takes === null) return null;
  const { physical } = matter;
  const looked = takes.tankSeasons > 0 ? takes : whole.takes!;
  const heads = tallies.counts.mean(PICKED);
  const light = physical.stages.some(({ lamps }) => lamps !== null)
    ? lightOf(plan, matter, tallies, heads)
    : null;
  const water = matter.drinks ? waterOf(plan, matter, takes) : null;
  const tank = physical.tank === null ? null : tankOf(plan, matter, takes, looked, drainedMoreL);
  const work = workOf(plan, matter, takes);
  const bought = tank?.topped_up_l ?? water?.used_l ?? null;
  const money = moneyOf(plan, matter, takes, heads, light?.kwh ?? null, bought, work?.hours ?? null);
  return {
    ...(light && { light }),
    ...(plan.crops.some(({ headG }) => headG !== null) && {
      mass: { picked_kg: pickedKg(plan, meanOf(takes)) },
    }),
    ...(water && { water }),
    ...(tank && { tank }),
    ...(work && { work }),
    ...(money && { money }),
  };
}

function lightOf(plan: Plan, matter: LineMatter, tallies: Tallies, heads: number): LightAmounts<number> {
  const { columns } = tallies.takes!;
  const stages = plan.stages.flatMap((stage, s) => {
    const { molPerHoleDay } = matter.stages[s]!;
    if (matter.physical.stages[s]!.lamps === null) return [];
    const states = STATES.map((state, k) => [state, tallies.ledger.mean(s * STATE_COUNT + k)] as const);
    const leaves = matter.grows ? tallies.takes!.mean(columns.leafDays(s)) : null;
    const [[, growing], ...others] = [states[GROWING]!, ...states.filter((_, k) => k !== GROWING)];
    const days = {
      leaves,
      gaps: leaves === null ? null : growing - leaves,
      ...(leaves === null && { growing }),
      ...Object.fromEntries(others),
    };
    return [
      {
        name: stage.name,
        kwh: lampsKwh(plan, matter, s, seasonDays(plan)),
        mol:
          molPerHoleDay === null
            ? null
            : Object.fromEntries(
                Object.entries(days).map(([part, d]) => [part, d === null ? null : d * molPerHoleDay]),
              ),
      },
    ];
  });
  const kwh = sumIfAll(stages.map((stage) => stage.kwh));
  return { kwh, kwh_per_head: kwh === null ? null : kwh / heads, stages };
}

function waterOf(plan: Plan, matter: LineMatter, takes: TakesTallies): WaterAmounts<number> {
  const { used, transpired, picked, standing, thrownOut, seeds } = waterTaken(plan, matter, meanOf(takes));
  return {
    used_l: used,
    transpired_l: transpired,
    picked_l: picked,
    standing_l: standing,
    thrown_out_l: thrownOut,
    seeds_l: seeds,
  };
}

/** What a mean season took. */
function meanOf(takes: TakesTallies): Taken {
  return { columns: takes.columns, of: (column) => takes.mean(column) };
}

/** @param looked seasons in which the tank was looked at from visit to visit */
function tankOf(
  plan: Plan,
  matter: LineMatter,
  takes: TakesTallies,
  looked: TakesTallies,
  drainedMoreL: number,
): TankAmounts<number> {
  const { fullL, ec, topUpEc } = matter.physical.tank!;
  if (!looksInTank(plan) || looked.tankSeasons === 0) {
    return {
      topped_up_l: null,
      drained_l: null,
      lowest_l: null,
      most_between_visits_l: null,
      ec_good_days: null,
    };
  }
  const most = looked.tankMean(TANK_COLUMNS.mostBetweenVisits);
  const drained_l =
    changesOf(plan, matter) * fullL + drainedMoreL - looked.tankMean(TANK_COLUMNS.beforeChanges);
  return {
    // What was used is topped up again; with a new filling, also what is drained.
    topped_up_l: takes.mean(takes.columns.usedByLastVisit) + drained_l,
    drained_l,
    // Full after each visit.
    lowest_l: fullL - most,
    most_between_visits_l: most,
    ec_good_days: ec === null || topUpEc === null ? null : looked.tankMean(TANK_COLUMNS.ecGoodDays),
  };
}

/** How often the tank is filled anew in a season. */
export function changesOf(plan: Plan, { physical }: LineMatter): number {
  return changeVisits(physical.tank!, visitDays(plan)).reduce((sum, change) => sum + change, 0);
}

function workOf(plan: Plan, { physical }: LineMatter, takes: TakesTallies): Amounts['work'] | null {
  if (physical.work === null || plan.visits.kind === 'always') return null;
  const { columns } = takes;
  const visits = visitDays(plan).length;
  const minutes = minutesTaken(plan, physical.work, meanOf(takes), visits);
  const visit_min =
    visits === 0 ? null : { p50: takes.mean(columns.usualVisit), p90: takes.mean(columns.fullVisit) };
  return { hours: hoursOf(minutes), minutes, visit_min };
}

function moneyOf(
  plan: Plan,
  { physical }: LineMatter,
  takes: TakesTallies,
  heads: number,
  kwh: number | null,
  litres: number | null,
  hours: number | null,
): MoneyAmounts<number> | null {
  const { prices } = physical;
  if (prices === null) return null;
  const picked = plan.crops.map((_, c) => takes.mean(takes.columns.picked(c)));
  const costs = costsOf(prices, {
    kwh,
    litres,
    sown: plan.crops.map((_, c) => takes.mean(takes.columns.sown(c))),
    picked,
    hours,
    holes: holesOfLine(plan),
    days: seasonDays(plan),
  });
  if (!anyCost(costs)) return null;
  const total = totalCost(costs);
  const revenue = revenueOf(
    prices,
    picked,
    plan.crops.map(({ headG }) => headG),
  );
  return {
    cost: { ...costs, total },
    revenue,
    margin: revenue === null ? null : revenue - total,
    cost_per_head: total / heads,
  };
}
