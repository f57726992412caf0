/**
 * What a fit would change in a scenario: its keys, what they say now, and what the log says.
 *
 * Only what is good is written. The shape stays the scenario's; a shape without a spread (fixed, exponential)
 * gets new days only, and observed times are left as they are. Where the log speaks against what cannot be
 * written, that is a conflict, for the grower to look at.
 */

import type { Growing, Plan, Shape } from '../../models/plan.js';
import type { FitResult, FittedFigure, StageFit } from './fit.js';

export interface FitChange {
  /** Keys and places in lists from the top of the scenario file. */
  readonly path: readonly (string | number)[];
  readonly crop: string;
  readonly stage: string;
  readonly regrowth: boolean;
  readonly key: 'days' | 'spread' | 'loss' | 'germination';
  /** What the scenario says, its default if it says nothing. */
  readonly present: number;
  /** What is to be written, rounded. */
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Whether what the scenario says lies outside the interval. */
  readonly outside: boolean;
}

/** What the log speaks against in a scenario, where its shape has no key for it. */
export interface FitConflict extends Omit<FitChange, 'path' | 'value' | 'outside' | 'key'> {
  readonly key: 'days' | 'spread';
  readonly shape: Shape;
  /** What the log says. */
  readonly value: number;
}

/** The widest triangle about its mean that stays above 0 has a spread of 1/sqrt(6). */
const WIDEST_TRIANGLE = 0.4;

/** Figures that differ from the plan's, in the order of the result. */
export function fitChangesOf(result: FitResult, plan: Plan): FitChange[] {
  return ofPlan(result, plan).flatMap(({ fit, crop, place, growing, toldDays }) => {
    const { stage, regrowth } = fit;
    const base = ['crops', place, ...(regrowth ? ['regrow'] : ['stages', stage])];
    const change = (
      key: FitChange['key'],
      figure: FittedFigure | null,
      present: number,
      digits: number,
      path: readonly (string | number)[] = [...base, key],
    ): FitChange[] => {
      if (figure === null || !figure.good) return [];
      const value = Number(figure.value.toPrecision(digits));
      if (value === present) return [];
      const { low, high } = figure;
      const outside = present < low || present > high;
      return [{ path, crop: crop.name, stage, regrowth, key, present, value, low, high, outside }];
    };
    return [
      ...(takesDays(growing)
        ? change('days', under(fit.days, toldDays / growing.time.days), toldDays, 4)
        : []),
      ...(takesSpread(growing, fit) ? change('spread', fit.spread, growing.time.spread, 3) : []),
      ...change('loss', fit.loss, growing.loss, 3),
      ...change('germination', fit.germination, crop.germination, 3, ['crops', place, 'germination']),
    ];
  });
}

/** Figures that the plan's shapes have no key for, and whose intervals leave out what they imply. */
export function conflictsOf(result: FitResult, plan: Plan): FitConflict[] {
  return ofPlan(result, plan).flatMap(({ fit, crop, growing }) => {
    const { shape } = growing.time;
    const { stage, regrowth } = fit;
    const conflict = (
      key: FitConflict['key'],
      figure: FittedFigure | null,
      present: number,
    ): FitConflict[] => {
      if (figure === null || !figure.good || (present >= figure.low && present <= figure.high)) return [];
      const { value, low, high } = figure;
      return [{ crop: crop.name, stage, regrowth, key, shape, present, value, low, high }];
    };
    return [
      ...(takesDays(growing) ? [] : conflict('days', fit.days, growing.time.days)),
      ...(takesSpread(growing, fit) ? [] : conflict('spread', fit.spread, growing.time.spread)),
    ];
  });
}

/** A figure of the line under the conditions to which the scenario's days belong (`days_at`). @param ratio of days there to days in the line */
function under(figure: FittedFigure | null, ratio: number): FittedFigure | null {
  if (figure === null || ratio === 1) return figure;
  const { value, low, high } = figure;
  return { ...figure, value: value * ratio, low: low * ratio, high: high * ratio };
}

/** The fits of what the plan knows, with their crop, its place, what the plan says of the growth, and the days that the scenario tells. */
function ofPlan({ crops }: FitResult, plan: Plan) {
  return crops.flatMap(({ crop: name, stages }) => {
    const place = plan.crops.findIndex((crop) => crop.name === name);
    const crop = plan.crops[place];
    if (crop === undefined) return [];
    return stages.map((fit) => {
      const s = plan.stages.findIndex((stage) => stage.name === fit.stage);
      const growing = fit.regrowth ? crop.regrow! : crop.stages[s]!;
      const matter = plan.physical?.crops[place];
      const told = fit.regrowth ? matter?.regrowDays : matter?.stages[s]?.days;
      return { fit, crop, place, growing, toldDays: told ?? growing.time.days };
    });
  });
}

function takesDays({ time }: Growing): boolean {
  return time.shape !== 'observed';
}

function takesSpread({ time }: Growing, { spread }: StageFit): boolean {
  if (time.shape === 'triangular') return spread !== null && spread.value < WIDEST_TRIANGLE;
  return time.shape === 'lognormal' || time.shape === 'gamma' || time.shape === 'weibull';
}
