/** Futures of a line: many seasons that go on from what may stand today, each watched. */

import type { Recorder } from '../../models/line.js';
import { Line } from '../../models/line.js';
import type { Opening } from '../../models/opening.js';
import type { Plan } from '../../models/plan.js';
import type { Openings } from './openings.js';

/** Watches future after future. */
export interface Watcher extends Recorder {
  /** A future begins. @param opening null: with an empty line, at the start of the season */
  begin(opening: Opening | null): void;
  /** It is over. */
  end(): void;
}

/**
 * Asked after each future. null: go on at once. A promise: wait for it (so that the caller's event loop gets its turn), and
 * stop if it gives false.
 */
export type Pause = () => Promise<boolean> | null;

/**
 * Run futures 0, 1, 2, ... of a plan: the same luck for the same number, whatever the plan.
 * @param plan as far as it is to be run
 * @returns false if `pause` said to stop
 */
export async function runFutures(
  plan: Plan,
  openings: Openings,
  futures: number,
  seed: number,
  watcher: Watcher,
  pause: Pause | undefined,
): Promise<boolean> {
  const line = new Line(plan);
  for (let k = 0; k < futures; k++) {
    const opening = openings.opening(k);
    watcher.begin(opening);
    line.run(seed, k, watcher, opening);
    watcher.end();
    const waiting = pause?.() ?? null;
    if (waiting !== null && !(await waiting)) return false;
  }
  return true;
}

/** Several watchers as one. */
export function together(watchers: readonly Watcher[]): Watcher {
  return {
    begin: (opening) => {
      for (const watcher of watchers) watcher.begin(opening);
    },
    note: (t, deed, plant, crop, stage, hole) => {
      for (const watcher of watchers) watcher.note(t, deed, plant, crop, stage, hole);
    },
    visited: (t, free) => {
      for (const watcher of watchers) watcher.visited?.(t, free);
    },
    end: () => {
      for (const watcher of watchers) watcher.end();
    },
  };
}

/** The same plan with a season that ends earlier. */
export function cutShort(plan: Plan, weeks: number): Plan {
  const within = (days: readonly number[]): number[] => days.filter((day) => day < 7 * weeks);
  return {
    ...plan,
    weeks,
    visits: plan.visits.kind === 'days' ? { kind: 'days', days: within(plan.visits.days) } : plan.visits,
    crops: plan.crops.map((crop) =>
      crop.sowing.kind === 'refill'
        ? crop
        : { ...crop, sowing: { ...crop.sowing, days: within(crop.sowing.days) } },
    ),
    want: plan.want === null ? null : { ...plan.want, days: within(plan.want.days) },
  };
}
