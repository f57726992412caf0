/** Holes that stand empty in the next weeks: free, and not being cleaned. */

import type { InitialState } from '../../models/initial-state.js';
import { holesOf, type Plan } from '../../models/plan.js';
import { dayBy, type Forecast, forecastOf } from './forecast.js';
import type { Watch } from './watcher.js';

export interface EmptyHoles {
  /** Empty on average over each week. */
  readonly weeks: readonly Forecast[];
  /** When more holes than now will stand empty for the first time; null if in no future they do. */
  readonly first: FirstDay | null;
}

/** When something comes for the first time. */
export interface FirstDay {
  /** Share of futures in which it comes. */
  readonly chance: number;
  /** Of those futures: days from the start [d]. */
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
}

/** Of one future. */
export interface HolesSeen {
  /** By stage and week: holes that stand empty on average. */
  readonly empty: readonly (readonly number[])[];
  /** By stage: the first visit after which more stand empty than now [d from the start]; NaN if there is none. */
  readonly first: readonly number[];
}

/** @param from first day of the first week [d from the start] */
export function watchHoles(
  plan: Plan,
  from: number,
  weeks: number,
  initial: InitialState | null,
): Watch<HolesSeen> {
  /** By stage: free holes since the last visit. */
  let free = plan.stages.map(holesOf);
  for (const stage of initial?.plants.stage ?? []) free[stage]!--;
  for (const { stage, holes } of initial?.cleaning ?? []) free[stage]! -= holes;
  const freeAtFirst = free;
  let since = from;
  /** By stage and week: hole-days. */
  const holeDays = free.map(() => new Array<number>(weeks).fill(0));
  const first = free.map(() => Number.NaN);
  const end = from + 7 * weeks;
  /** Book the free holes from the last visit to `t`, week by week. */
  const passTo = (t: number): void => {
    while (since < Math.min(t, end)) {
      const week = Math.floor((since - from) / 7);
      const to = Math.min(t, from + 7 * (week + 1));
      for (const [s, holes] of free.entries()) holeDays[s]![week]! += (to - since) * holes;
      since = to;
    }
    since = t;
  };
  return {
    onEvent() {},
    onVisitEnd(t, now) {
      passTo(t);
      free = [...now];
      for (const [s, holes] of free.entries()) {
        if (Number.isNaN(first[s]) && holes > freeAtFirst[s]!) first[s] = t;
      }
    },
    end() {
      passTo(end);
      return {
        empty: holeDays.map((days) => days.map((day) => day / 7)),
        first: first.map((day) => (day < end ? day : Number.NaN)),
      };
    },
  };
}

/** For each stage, of all futures. @param seen at least one */
export function emptyHoles(seen: readonly HolesSeen[]): EmptyHoles[] {
  return seen[0]!.empty.map((weeks, s) => ({
    weeks: weeks.map((_, week) => forecastOf(seen.map(({ empty }) => empty[s]![week]!))),
    first: firstDay(seen.map(({ first }) => first[s]!)),
  }));
}

/** @param firsts of all futures; NaN of those in which it does not come */
function firstDay(firsts: readonly number[]): FirstDay | null {
  const days = firsts.filter((day) => !Number.isNaN(day));
  if (days.length === 0) return null;
  return {
    chance: days.length / firsts.length,
    p10: dayBy(days, 0.1),
    p50: dayBy(days, 0.5),
    p90: dayBy(days, 0.9),
  };
}
