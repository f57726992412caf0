/** What rows of the tank tell, as it is printed with --json: plain data. */

import type { FittedFigure } from '../fitted-figure.js';
import type { LeftOutWhy } from './spells.js';

/** Why a figure of the tank is not sure. */
export type MeterDoubt =
  /** The scenario does not tell what the model takes. */
  | { readonly why: 'untold_line' }
  /** Plants of crops that the scenario does not have took water too. */
  | { readonly why: 'unknown_crops' }
  /** Fewer than `fewest` spells between top-ups, or readings. */
  | { readonly why: 'few_top_ups' | 'few_readings'; readonly fewest: number }
  /** From end to end the interval is so many times (`factor`) or more. */
  | { readonly why: 'wide_meter'; readonly factor: number }
  /** It is further from what is usual than plants are: a slip in the log, a leak, another unit. */
  | { readonly why: 'far_off' }
  /** More than half of the days between top-ups are left out. */
  | { readonly why: 'left_out' }
  /** All readings are alike, however much was used. */
  | { readonly why: 'same_readings' }
  /** The log does not fit the scenario. */
  | { readonly why: 'refused_log' };

/** A spell between two rows of the tank of which nothing is made. */
export interface LeftOutSpell {
  readonly why: LeftOutWhy;
  /** ISO dates. */
  readonly from: string;
  readonly to: string;
}

/** Litres by the grower's meter against those of the model. */
export interface MeteredWater {
  /** `water.scale`: what plants gave off by the meter over what the model tells [-]; null if nothing can be said. */
  readonly scale: FittedFigure | null;
  /** Spells between top-ups that it comes from, their days, and the litres topped up at their ends. */
  readonly spells: number;
  readonly days: number;
  readonly litres: number;
  /** Of these litres, by the model: those that stay in plants, and what plants give off at scale 1. */
  readonly in_plants_l: number;
  readonly transpired_l: number;
  readonly left_out: readonly LeftOutSpell[];
  readonly doubts: readonly MeterDoubt[];
}

/** Conductivity by the grower's readings. */
export interface MeteredTank {
  /** `tank.uptake_ec`: conductivity of what plants took up [mS/cm]; null if nothing can be said. */
  readonly uptake_ec: FittedFigure | null;
  /** Readings that it comes from, and fillings of the tank that have at least two. */
  readonly readings: number;
  readonly fillings: number;
  readonly doubts: readonly MeterDoubt[];
}

/** What is told where the log has rows of the tank and the scenario tells of more than the line. */
export interface Metered {
  readonly water?: MeteredWater;
  readonly tank?: MeteredTank;
}
