/** Minutes of work, by deed. */

import type { WorkTimes } from './plan.js';

/** What was done, counted. */
export interface Deeds {
  /** Seeds. */
  readonly sown: number;
  readonly moved: number;
  /** Picks. */
  readonly picked: number;
  /** Dead plants, failed seeds and what was thrown away. */
  readonly cleared: number;
  /** Holes sent to be cleaned. */
  readonly cleaned: number;
  readonly visits: number;
}

/** All of them but the visits themselves. */
export type CountedDeeds = Omit<Deeds, 'visits'>;

/** Minutes of each deed [min]. */
export interface WorkMinutes {
  readonly sow: number;
  readonly move: number;
  readonly pick: number;
  readonly clear: number;
  readonly clean: number;
  readonly visit: number;
  readonly tank: number;
}

export function workMinutes(times: WorkTimes, deeds: Deeds): WorkMinutes {
  const minutes = (count: number, seconds: number): number => (count * seconds) / 60;
  return {
    sow: minutes(deeds.sown, times.sowS),
    move: minutes(deeds.moved, times.moveS),
    pick: minutes(deeds.picked, times.pickS),
    clear: minutes(deeds.cleared, times.clearS),
    clean: minutes(deeds.cleaned, times.cleanS),
    visit: deeds.visits * times.visitMin,
    tank: deeds.visits * times.tankMin,
  };
}

/** All of it [h]. */
export function hoursOf({ sow, move, pick, clear, clean, visit, tank }: WorkMinutes): number {
  return (sow + move + pick + clear + clean + visit + tank) / 60;
}

/** What deeds take besides the visits themselves [min]. */
export function deedMinutes(times: WorkTimes, deeds: CountedDeeds): number {
  const { sown, moved, picked, cleared, cleaned } = deeds;
  const { sowS, moveS, pickS, clearS, cleanS } = times;
  return (sown * sowS + moved * moveS + picked * pickS + cleared * clearS + cleaned * cleanS) / 60;
}

/** More than any visit can take [min]: each hole is emptied, cleaned and filled again once. @param holes of the line */
export function mostVisitMinutes(times: WorkTimes, holes: number): number {
  const each = { sown: holes, moved: holes, picked: holes, cleared: holes, cleaned: holes };
  return times.visitMin + times.tankMin + deedMinutes(times, each);
}
