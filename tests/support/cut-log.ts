/** The log of a season that somebody began to keep in its middle: what stood then is told by `stand` rows. */

import { stream } from '../../sim/engine/random.js';
import { isoOfDay } from '../../sim/models/dates.js';
import type { Plan } from '../../sim/models/plan.js';
import { cohortsOf } from '../../sim/season/history/cohorts.js';
import { loggedSeason } from '../../sim/season/history/logged-season.js';
import type { LogRow } from '../../sim/season/log/rows.js';

/**
 * How well the grower knows since when plants stand there: the day of each lot; the first and the last day on which the batch
 * came into the stage; for each lot some days in which it came; nothing.
 */
export type Memory = 'day' | 'span' | 'vague' | 'none';

/** A vague span has so many days, the true one somewhere in it. */
const VAGUE = 2;

/**
 * @param rows of the whole season
 * @param day on which the log begins: its rows are those from then on [d]
 */
export function cutLog(rows: readonly LogRow[], plan: Plan, day: number, memory: Memory): LogRow[] {
  const begin = isoOfDay(plan.start, day);
  const framing = loggedSeason(
    rows.filter(({ date }) => date < begin),
    plan,
    true,
    day,
  );
  if (!framing.ok) throw new Error('the log is not one of the plan');
  const { batches } = framing.value;
  // Another memory for each log.
  const chance = stream(
    rows.reduce((sum, { count }, i) => sum + count * (i + 1), 0),
    0,
    ['memory'],
  );
  const stand = cohortsOf(framing.value)
    .slice(0, plan.stages.length)
    .flatMap((lots, s) =>
      lots.flatMap(({ batch, from, stays }): LogRow[] => {
        const count = stays.reduce((sum, { end, count }) => sum + (end === 'standing' ? count : 0), 0);
        if (count === 0) return [];
        const came = lots.filter((lot) => lot.batch === batch).map((lot) => lot.from);
        // The true day is not always in the middle of what is remembered.
        const early = from - Math.floor(chance() * VAGUE);
        const iso = (d: number): string => isoOfDay(plan.start, Math.min(d, day));
        const since = {
          day: iso(from),
          span: `${iso(Math.min(...came))}..${iso(Math.max(...came))}`,
          vague: `${iso(early)}..${iso(early + VAGUE - 1)}`,
          none: null,
        }[memory];
        return [
          {
            line: 0,
            date: begin,
            action: 'stand',
            crop: plan.crops[batches[batch]!.crop]!.name,
            batch: batches[batch]!.name,
            stage: plan.stages[s]!.name,
            channel: null,
            count,
            grams: null,
            note: since === null ? null : `since ${since}`,
          },
        ];
      }),
    );
  return [...stand, ...rows.filter(({ date }) => date >= begin)];
}
