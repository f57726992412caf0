/**
 * What a plan takes, as `run --json` tells it beside everything else: each figure of the seasons with its standard error, which comes from
 * the sections for all of them alike (see sections.ts); what holds of the plan whatever a season brings without one.
 */

import { assumptions, litresFactor, type Told } from '../../models/physical/assumes.js';
import { costsUntold } from '../../models/untold-costs.js';
import { errorOf } from '../../seasons/sections.js';
import {
  type Amounts,
  amountsOf,
  type MoneyAmounts,
  type TakesSample,
  type TankAmounts,
  type WaterAmounts,
} from './amounts.js';
import { drains } from './drained.js';
import { type StandingFigures, standingOf } from './standing.js';

/** A mean and its standard error (null where there are no sections to tell it from). */
export interface MeanError {
  readonly mean: number;
  readonly se: number | null;
}

/** Keys of a run's result. A group that the scenario does not ask for is absent. */
export interface Takes extends Omit<Amounts<MeanError>, 'water' | 'tank' | 'money'> {
  readonly growth?: NonNullable<StandingFigures['growth']>;
  /** Where plants are spaced wider as they grow. */
  readonly staging?: NonNullable<StandingFigures['staging']>;
  readonly water?: WaterAmounts<MeanError> & NonNullable<StandingFigures['water']>;
  readonly tank?: TankAmounts<MeanError> & NonNullable<StandingFigures['tank']>;
  readonly load?: NonNullable<StandingFigures['load']>;
  readonly money?: MoneyAmounts<MeanError> & NonNullable<StandingFigures['money']>;
  /** What was taken for granted. */
  readonly assumes?: readonly string[];
}

/** @param sections of the seasons of `all`; null where none was run */
export function takesOf(all: TakesSample, sections: readonly (TakesSample | null)[]): Takes {
  const amounts = amountsOf(all);
  const standing = standingOf(all.plan);
  if (amounts === null || standing === null) return {};
  const run = sections.filter((section) => section !== null);
  const told = withErrors(
    amounts,
    run.map((section) => ({ amounts: amountsOf(section), seasons: section.tallies.seasons })),
  ) as Amounts<MeanError>;
  const { tank: topped, ...others } = told;
  const looked = topped && fromLooks(topped, amounts, run);
  const { money, tank, water, ...rest } = looked
    ? drainedToo({ ...others, tank: looked }, amounts, all)
    : told;
  return {
    ...rest,
    ...(standing.growth && { growth: standing.growth }),
    ...(standing.staging && { staging: standing.staging }),
    ...(water && { water: { ...water, ...standing.water! } }),
    ...(tank && { tank: { ...tank, ...standing.tank! } }),
    ...(standing.load && { load: standing.load }),
    ...(money && { money: { ...money, ...standing.money! } }),
    assumes: assumptions(toldIn(amounts, standing), litresFactor(all.plan), costsUntold(all.plan)),
  };
}

/** Which figures are told. */
export function toldIn(amounts: Amounts<unknown>, { load }: Pick<StandingFigures, 'load'> = {}): Told {
  const { light, mass, water, tank, work, money } = amounts;
  return {
    light: light !== undefined,
    leaves: light?.stages.some(({ mol }) => mol?.['leaves'] != null) ?? false,
    mass: mass !== undefined,
    water: water !== undefined,
    tank: tank !== undefined,
    load: load !== undefined,
    work: work !== undefined,
    money: money !== undefined,
  };
}

interface Part {
  readonly amounts: unknown;
  readonly seasons: number;
}

/** The same, with {mean, se} for each number. What divides by heads that nobody picked is null. */
function withErrors(all: unknown, parts: readonly Part[]): unknown {
  if (typeof all === 'number') {
    if (!Number.isFinite(all)) return null;
    const figures = parts.map(({ amounts, seasons }) => ({ figure: amounts as number, seasons }));
    const known = figures.every(({ figure }) => Number.isFinite(figure));
    return { mean: all, se: known ? errorOf(all, figures) : null } satisfies MeanError;
  }
  if (all === null || typeof all !== 'object') return all;
  const inside = (key: string): Part[] =>
    parts.map(({ amounts, seasons }) => ({ amounts: (amounts as Record<string, unknown>)[key], seasons }));
  if (Array.isArray(all)) return all.map((one, i) => withErrors(one, inside(`${i}`)));
  return Object.fromEntries(Object.entries(all).map(([key, one]) => [key, withErrors(one, inside(key))]));
}

/** What is known only of seasons in which the tank was looked at has its error from the sections that have such. */
function fromLooks(
  tank: TankAmounts<MeanError>,
  { tank: means }: Amounts,
  sections: readonly TakesSample[],
): TankAmounts<MeanError> {
  const parts = sections.flatMap((section) => {
    const seasons = section.tallies.takes!.tankSeasons;
    return seasons === 0 ? [] : [{ amounts: amountsOf(section)!.tank, seasons }];
  });
  const told = withErrors(means, parts) as TankAmounts<MeanError>;
  return { ...told, topped_up_l: tank.topped_up_l };
}

/**
 * What was drained is known of some seasons only, and the litres that are bought, with what they cost, are told from the mean of these:
 * that error is added to theirs. (Whoever uses more has less to drain, so taking the two for independent is on the safe side.)
 */
function drainedToo(told: Amounts<MeanError>, amounts: Amounts, all: TakesSample): Amounts<MeanError> {
  const drained = told.tank!.drained_l;
  if (drained === null || drained.se === 0 || !drains(all.plan)) return told;
  const shifted = amountsOf({ ...all, drainedMoreL: drained.se ?? Number.NaN });
  const { tank, money } = withMore(told, amounts, shifted) as Amounts<MeanError>;
  return { ...told, tank: { ...told.tank!, topped_up_l: tank!.topped_up_l }, ...(money && { money }) };
}

/** Errors and the differences that `shifted` makes, taken together; no error where the difference is not known. */
function withMore(told: unknown, means: unknown, shifted: unknown): unknown {
  // What divides by heads that nobody picked.
  if (told === null) return null;
  if (typeof means === 'number') {
    const { mean, se } = told as MeanError;
    const off = (shifted as number) - means;
    if (off === 0) return told;
    return { mean, se: se === null || Number.isNaN(off) ? null : Math.sqrt(se * se + off * off) };
  }
  if (typeof told !== 'object') return told;
  const inside = (of: unknown, key: string): unknown => (of as Record<string, unknown> | null)?.[key];
  return Object.fromEntries(
    Object.entries(told).map(([key, one]) => [key, withMore(one, inside(means, key), inside(shifted, key))]),
  );
}
