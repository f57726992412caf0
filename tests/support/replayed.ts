/** Logs in short form, and all that a replay works out on its way, for tests. */

import { isoOfDay } from '../../sim/models/dates.js';
import { type Plan, seasonDays } from '../../sim/models/plan.js';
import { attendance } from '../../sim/season/history/attendance.js';
import { cohortsOf } from '../../sim/season/history/cohorts.js';
import { type LoggedSeason, loggedSeason } from '../../sim/season/history/logged-season.js';
import { occupancy } from '../../sim/season/history/occupancy.js';
import { Readiness } from '../../sim/season/history/readiness.js';
import { shortVisits } from '../../sim/season/history/short-visits.js';
import { ACTIONS, type LogRow } from '../../sim/season/log/rows.js';
import { failedBatches } from '../../sim/season/replay/failed-batches.js';
import { holeDays } from '../../sim/season/replay/hole-days.js';
import { idleSpells } from '../../sim/season/replay/idle-spells.js';
import { MeanFlow } from '../../sim/season/replay/mean-flow.js';
import { type SeasonDraws, seasonDraws } from '../../sim/season/replay/season-draws.js';
import { waitingPlants } from '../../sim/season/replay/waiting.js';
import { simulatedLog } from './simulated-log.js';

/**
 * Rows from texts such as `8 move B1 5 nursery`: day, action, batch (`-` for clean), count, stage, then if need be
 * `@channel` and a note.
 */
export function rowsOf(plan: Plan, texts: readonly string[]): LogRow[] {
  return texts.map((text, i) => {
    const [day, action, batch, count, stage, ...rest] = text.split(' ');
    const known = ACTIONS.find((name) => name === action);
    if (known === undefined || known === 'tank') throw new Error(`no action: ${text}`);
    const channel = rest[0]?.startsWith('@') ? rest.shift()!.slice(1) : null;
    return {
      line: i + 2,
      date: isoOfDay(plan.start, Number(day)),
      action: known,
      crop: known === 'clean' ? '' : plan.crops[0]!.name,
      batch: known === 'clean' ? '' : batch!,
      stage: stage!,
      channel,
      count: Number(count),
      grams: null,
      note: rest.length === 0 ? null : rest.join(' '),
    };
  });
}

/** A log beside its plan. Throws if they do not belong together. */
export function seasonOf(plan: Plan, rows: readonly LogRow[], until = seasonDays(plan)): LoggedSeason {
  const framing = loggedSeason(rows, plan, true, until);
  if (!framing.ok) throw new Error(JSON.stringify(framing.faults));
  return framing.value;
}

/** Everything that is worked out of a season before the result is put together. */
export function workedOut(season: LoggedSeason) {
  const lots = cohortsOf(season);
  const came = attendance(season, lots);
  const stages = occupancy(season, lots, came.visits);
  const limited = shortVisits(season, stages, came.visits);
  const readiness = limited.map((of, s) => new Readiness(season, s, lots, came.visits, of));
  const tracing = new MeanFlow(season);
  const failed = failedBatches(season, lots);
  const waiting = readiness.slice(0, -1).map((ready, s) => waitingPlants(season, s, lots, ready));
  return {
    lots,
    came,
    stages,
    readiness,
    tracing,
    failed,
    holeDays: holeDays(season, lots, stages, limited, came),
    idle: idleSpells({ season, attendance: came, stages, meanFlow: tracing, failed, cohorts: lots, waiting }),
  };
}

/** The same of a simulated season. */
export function replayed(plan: Plan, seed: number, season: number) {
  return workedOut(seasonOf(plan, simulatedLog(plan, seed, season)));
}

/** A simulated season's own luck. */
export function luckOf(plan: Plan, seed: number, season: number): SeasonDraws {
  const logged = seasonOf(plan, simulatedLog(plan, seed, season));
  const { lots, readiness } = workedOut(logged);
  return seasonDraws(logged, lots, readiness);
}
