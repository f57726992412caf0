/** Heads that become ready, and picks, in each of the next weeks. */

import { type Forecast, forecastOf } from './forecast.js';
import type { Watch } from './watcher.js';

/** Of one future, one entry a week. */
export interface WeeksSeen {
  /** Heads that become ready to be picked; of plants with several cuts each cut. */
  readonly ready: readonly number[];
  readonly picked: readonly number[];
}

/**
 * @param from first day of the first week [d from the start]
 * @param last place of the last stage
 */
export function watchWeeks(from: number, weeks: number, last: number): Watch<WeeksSeen> {
  const ready = new Array<number>(weeks).fill(0);
  const picked = new Array<number>(weeks).fill(0);
  return {
    onEvent(t, event, _plant, _crop, stage) {
      const picks = event === 'pick';
      if (t < from || !(picks || (event === 'ripen' && stage === last))) return;
      const week = Math.floor((t - from) / 7);
      if (week < weeks) (picks ? picked : ready)[week]!++;
    },
    end: () => ({ ready, picked }),
  };
}

/** The weeks of all futures. @param seen at least one */
export function weekHeads(seen: readonly WeeksSeen[]): { ready: Forecast; picked: Forecast }[] {
  return seen[0]!.ready.map((_, week) => ({
    ready: forecastOf(seen.map(({ ready }) => ready[week]!)),
    picked: forecastOf(seen.map(({ picked }) => picked[week]!)),
  }));
}

/** Picks in all weeks together, one entry a future. */
export function picksIn(seen: readonly WeeksSeen[]): number[] {
  return seen.map(({ picked }) => picked.reduce((sum, picks) => sum + picks, 0));
}
