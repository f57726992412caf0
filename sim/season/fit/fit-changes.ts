/**
 * What a fit would change in a scenario: its keys, what they say now, and what the log says.
 *
 * Only what is good is written. The shape stays the scenario's; a shape without a spread (fixed, exponential)
 * gets new days only, and observed times are left as they are. Where the log speaks against what cannot be
 * written, that is a conflict, for the grower to look at.
 */

import type { Growing, Plan, Shape } from '../../models/plan.js';
import type { FitResult, StageFit } from './fit.js';
import type { FittedFigure } from './fitted-figure.js';

export interface FitChange {
  /** Keys and places in lists from the top of the scenario file. */
  readonly path: readonly (string | number)[];
  /** null for what is of the whole line: water.scale and tank.uptake_ec. */
  readonly crop: string | null;
  readonly stage: string | null;
  readonly regrowth: boolean;
  readonly key: 'days' | 'spread' | 'loss' | 'germination' | 'scale' | 'uptake_ec';
  /** What the scenario says, its default if it says nothing; null where that is no figure of the grower's line (scale, uptake_ec). */
  readonly present: number | null;
  /** What is to be written, rounded. */
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Whether what the scenario says lies outside the interval, or it says nothing. */
  readonly outside: boolean;
}

/** What the log speaks against in a scenario, where its shape has no key for it. */
export interface FitConflict extends Pick<FitChange, 'regrowth' | 'low' | 'high'> {
  readonly crop: string;
  readonly stage: string;
  readonly key: 'days' | 'spread';
  readonly present: number;
  readonly shape: Shape;
  /** What the log says. */
  readonly value: number;
}

/** Digits of what a meter tells. */
const METER_DIGITS = 3;

/** The widest triangle about its mean that stays above 0 has a spread of 1/sqrt(6). */
const WIDEST_TRIANGLE = 0.4;

/** Figures that differ from the plan's, in the order of the result; behind them those of the tank. */
export function fitChangesOf(result: FitResult, plan: Plan): FitChange[] {
  return [...grownChanges(result, plan), ...meteredChanges(result, plan)];
}

function meteredChanges({ water, tank }: FitResult, { physical }: Plan): FitChange[] {
  const whole = { crop: null, stage: null, regrowth: false };
  const change = (
    path: readonly ['water', 'scale'] | readonly ['tank', 'uptake_ec'],
    figure: FittedFigure | null | undefined,
    present: number | null,
  ): FitChange[] => {
    if (figure == null || !figure.good) return [];
    const value = Number(figure.value.toPrecision(METER_DIGITS));
    if (value === present) return [];
    const { low, high } = figure;
    const outside = present === null || present < low || present > high;
    return [{ path, ...whole, key: path[1], present, value, low, high, outside }];
  };
  return [
    ...change(['water', 'scale'], water?.scale, physical?.waterMetered ? physical.waterScale : null),
    ...change(['tank', 'uptake_ec'], tank?.uptake_ec, physical?.tank?.uptakeEc ?? null),
  ];
}

function grownChanges(result: FitResult, plan: Plan): FitChange[] {
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
