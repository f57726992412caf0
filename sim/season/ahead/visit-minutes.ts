/** How long each coming visit takes: its fixed minutes, and the seconds of what is done on it in every future. */

import { lineMatter } from '../../models/physical/line-matter.js';
import type { Plan } from '../../models/plan.js';
import type { ChoreKind, ChoreSeen } from './chores-watch.js';
import { forecastOf } from './forecast.js';
import type { TakesRange } from './takes-ahead.js';

const SECONDS = 60;

/**
 * All that is done counts, also what is so rare that a list leaves it out.
 * @param seen one entry a future, at least one
 * @param visits that are listed [d from the start]
 * @param groupOf what visits are summed up by: the day itself, or the first day of its week
 * @returns minutes by group; null where the plan tells nothing of work
 */
export function visitMinutes(
  plan: Plan,
  seen: readonly (readonly ChoreSeen[])[],
  visits: readonly number[],
  groupOf: (day: number) => number,
): ReadonlyMap<number, TakesRange> | null {
  const times = lineMatter(plan)?.physical.work ?? null;
  if (times === null) return null;
  const { clearS, pickS, moveS, sowS, cleanS } = times;
  const each: Readonly<Record<ChoreKind, number>> = {
    lose: clearS,
    pick: pickS,
    move: moveS,
    sow: sowS,
    clean: cleanS,
  };
  const fixed = SECONDS * (times.visitMin + times.tankMin);
  const seconds = new Map<number, Float64Array>();
  for (const day of visits) {
    const group = groupOf(day);
    const mine = seconds.get(group) ?? new Float64Array(seen.length);
    seconds.set(
      group,
      mine.map((sum) => sum + fixed),
    );
  }
  for (const [future, chores] of seen.entries()) {
    for (const { day, kind, batch, count } of chores) {
      // All batches together are told beside each of them.
      if (batch === null) seconds.get(groupOf(day))![future]! += count * each[kind];
    }
  }
  return new Map([...seconds].map(([group, sums]) => [group, rangeOf(sums.map((sum) => sum / SECONDS))]));
}

function rangeOf(values: Float64Array): TakesRange {
  const { mean, se, p10, p50, p90 } = forecastOf(values);
  return { mean, se, p10, p50, p90 };
}
