/**
 * Where every hole-day goes: the states of a hole, and what a season books under each.
 *
 * At each instant every hole of a stage is in exactly one state, so the days of all states add up to holes x days,
 * to the last digit (see engine/clock.ts).
 */

import type { SeasonTakes } from './takes.js';

/** The states, in the order in which they are stored and printed. */
export const STATES = [
  /** A plant that is not ready yet, or a seed whose time is not over yet. */
  'growing',
  /** A dead plant or failed seed that no visit has cleared yet. */
  'dead',
  /** A ready plant that no visit has seen yet. */
  'unattended',
  /** A ready plant that a visit saw and could not move: no free hole in the next stage. */
  'blocked',
  /** A ready plant of the last stage that a visit saw and did not pick: not wanted yet. */
  'held',
  /** Nothing: being cleaned, or clean but not yet taken back into use by a visit. */
  'cleaning',
  /** Nothing, because no plant has ever been ready to come in (first stage: nothing sown yet). */
  'filling',
  /** Nothing, although a ready plant of the stage before waits for a visit to bring it. */
  'untended',
  /** Nothing, and nothing upstream is ready to come. */
  'unsupplied',
] as const;

export type HoleState = (typeof STATES)[number];

/** Number of states: the ledger of stage s starts at s x STATE_COUNT. */
export const STATE_COUNT = STATES.length;

/** Place of each state within a stage's ledger. */
export const GROWING = 0;
export const DEAD = 1;
export const UNATTENDED = 2;
export const BLOCKED = 3;
export const HELD = 4;
export const CLEANING = 5;
export const FILLING = 6;
export const UNTENDED = 7;
export const UNSUPPLIED = 8;

/** The states in which a hole holds nothing and is not being cleaned. */
export const EMPTY_STATES = [FILLING, UNTENDED, UNSUPPLIED] as const;

/** How much of something that is told for each state (holes, shares) is in the empty ones. @param levels by state */
export function emptyIn(levels: ArrayLike<number>): number {
  return EMPTY_STATES.reduce((sum, state) => sum + levels[state]!, 0);
}

/** What is counted in a season, in plants or seeds unless said otherwise. */
export const COUNTS = [
  'sown',
  /** Seeds that were due but found no free cell. */
  'unsown',
  /** Seeds that did not sprout and whose time is over. */
  'failed',
  'lost',
  /** Plants thrown away because they had been ready for longer than they keep. */
  'discarded',
  /** Picks: a plant with three cuts counts three times. */
  'picked',
  /** Plants that have given their last pick. */
  'picked_out',
  /** Heads that were wanted. */
  'wanted',
  /** Heads that were wanted and not picked. */
  'short',
  /** Plants and seeds that stand in the line at the end. */
  'standing',
] as const;

export type CountName = (typeof COUNTS)[number];

export const SOWN = 0;
export const UNSOWN = 1;
export const FAILED = 2;
export const LOST = 3;
export const DISCARDED = 4;
export const PICKED = 5;
export const PICKED_OUT = 6;
export const WANTED = 7;
export const SHORT = 8;
export const STANDING = 9;

/** What one season gave. The simulator hands out the same object again for every season: copy what must last. */
export interface Season {
  /** One figure for each of COUNTS. */
  readonly counts: Float64Array;
  /** Hole-days: stage s, state k at s x STATE_COUNT + k [d]. */
  readonly ledger: Float64Array;
  /** Picks in each week. */
  readonly weekPicks: Float64Array;
  /** Plants thrown away: stage s, week w at s x weeks + w. */
  readonly weekDiscards: Float64Array;
  /** When the first pick was made [d from the start]; NaN if never. */
  firstPick: number;
  /** What it took beyond its holes; null where the plan tells nothing of it, and where the season was taken up in the middle. */
  takes: SeasonTakes | null;
}
