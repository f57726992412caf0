/** Single openings, for tests, and the plants in them one by one. */

import { type InitialState, NEXT, type StandingPlants } from '../../sim/models/initial-state.js';
import { type InitialStates, initialStateOf } from '../../sim/season/ahead/initial-states.js';

/** The k-th opening; null if the season has not begun. */
export function openingOf(openings: InitialStates, k: number): InitialState | null {
  return openings.stand && initialStateOf(openings.stand, openings.fates(k));
}

/** One plant that stands. */
export interface StandingPlant {
  readonly crop: number;
  readonly stage: number;
  readonly cutsLeft: number;
  readonly next: (typeof NEXT)[number];
  readonly at: number;
  /** When it came or was cut last, and the days that were drawn for it [d]. */
  readonly since?: number;
  readonly needs?: number;
}

export function columnsOf(plants: readonly StandingPlant[]): StandingPlants {
  return {
    crop: Uint8Array.from(plants, ({ crop }) => crop),
    stage: Uint8Array.from(plants, ({ stage }) => stage),
    cutsLeft: Uint8Array.from(plants, ({ cutsLeft }) => cutsLeft),
    next: Uint8Array.from(plants, ({ next }) => NEXT.indexOf(next)),
    at: Float64Array.from(plants, ({ at }) => at),
    ...(plants.length > 0 &&
      plants.every(({ since }) => since !== undefined) && {
        stays: {
          since: Int32Array.from(plants, ({ since }) => since!),
          doomedDays: Float64Array.from(
            plants.filter(({ next }) => next === 'die'),
            ({ needs }) => needs!,
          ),
        },
      }),
  };
}
