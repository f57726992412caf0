/** Rebuilds a real season from its log: what stood where, which holes stood empty and why, and what else might have been. */

import { isoOfDay } from '../../models/dates.js';
import { holesOf, type Plan, seasonDays } from '../../models/plan.js';
import { type Result, success } from '../../models/result.js';
import { attendance } from '../history/attendance.js';
import { type LoggedSeason, loggedSeason } from '../history/logged-season.js';
import { occupancy } from '../history/occupancy.js';
import { limitedVisits } from '../history/room.js';
import { type Lots, lotsOf } from '../history/stays.js';
import type { LogFault } from '../log/faults.js';
import type { LogRow } from '../log/rows.js';
import { channelDays } from './channel-days.js';
import { failedBatches } from './failed-batches.js';
import { holeDays } from './hole-days.js';
import { idleSpells } from './idle-spells.js';
import { inferredSeason } from './infer-plan.js';
import { ownLuck } from './own-luck.js';
import { Readiness } from './readiness.js';
import type { Crowded, ReplayedStage, ReplayResult, WeekPicks } from './result.js';
import { Tracing } from './tracing.js';
import { waitingPlants } from './waiting.js';
import { type Change, whatIf } from './what-if.js';

export interface ReplayOptions {
  /** Another cadence to try with the season's own luck. */
  readonly change?: Change | null;
  /** Day at which what the log tells ends [d], with a plan; see `loggedSeason`. */
  readonly until?: number | null;
}

/**
 * @param rows at least one, in the order of their dates, as `readLog` hands them out
 * @param stages names of the stages, as `readLog` hands them out
 * @param plan of the line; null if no scenario is known
 * @returns faults if log and plan do not belong together
 */
export function replaySeason(
  rows: readonly LogRow[],
  stages: readonly string[],
  plan: Plan | null,
  { change = null, until = null }: ReplayOptions = {},
): Result<ReplayResult, LogFault> {
  if (plan === null) {
    const { season, lots } = inferredSeason(rows, stages);
    return success(resultOf(season, lots, change));
  }
  const framing = loggedSeason(rows, plan, true, until);
  if (!framing.ok) return framing;
  const season = framing.value;
  return success(resultOf(season, lotsOf(season), change));
}

function resultOf(season: LoggedSeason, lots: Lots, change: Change | null): ReplayResult {
  const came = attendance(season, lots);
  const days = occupancy(season, lots, came.visits);
  const limited = limitedVisits(season, days, came.visits);
  const readiness = limited.map((of, s) => new Readiness(season, s, lots, came.visits, of));
  const tracing = new Tracing(season);
  const waiting = readiness.slice(0, -1).map((ready, s) => waitingPlants(season, s, lots, ready));
  const failed = failedBatches(season, lots);
  const idle = idleSpells({ season, came, stages: days, tracing, failed, lots, waiting });
  const ledgers = holeDays(season, lots, days, limited, came);
  const channels = channelDays(season);
  const several = season.plan.crops.some(({ cuts }) => cuts > 1);
  const scarcest = tracing.scarcest();
  const weeks = weekPicks(season);
  const date = (day: number): string => isoOfDay(season.plan.start, day);
  const stages = season.plan.stages.map(
    (stage, s): ReplayedStage => ({
      name: stage.name,
      holes: holesOf(stage),
      hole_days: holesOf(stage) * season.days,
      ledger: ledgers[s]!,
      exact: !(several && s === season.plan.stages.length - 1),
      standing: [...days[s]!.standing],
      cleaning: [...days[s]!.cleaning],
      channels: channels[s]!,
    }),
  );
  return {
    title: season.plan.title,
    start: season.plan.start,
    end: date(season.days - 1),
    days: season.days,
    whole: !season.planned || season.days >= seasonDays(season.plan),
    planned: season.planned,
    rows: season.deeds.length,
    batches: season.batches.length,
    counts: counts(
      season,
      days.map(({ standing }) => standing.at(-1)!),
    ),
    crowded: crowdedIn(stages, date),
    weeks,
    missed_visits: came.missed.map(date),
    scarcest: scarcest === null ? null : season.plan.stages[scarcest]!.name,
    idle,
    stages,
    what_if:
      change === null ? null : whatIf(season, ownLuck(season, lots, readiness), came.visits, weeks, change),
  };
}

function crowdedIn(stages: readonly ReplayedStage[], date: (day: number) => string): Crowded[] {
  return stages.flatMap(({ name, holes, exact, standing }) => {
    const first = standing.findIndex((plants) => plants > holes);
    if (!exact || first === -1) return [];
    return [{ stage: name, holes, from: date(first), most: Math.max(...standing) }];
  });
}

function counts(season: LoggedSeason, standing: readonly number[]): ReplayResult['counts'] {
  const of = (action: 'sow' | 'pick' | 'lose'): number =>
    season.deeds.reduce((sum, deed) => sum + (deed.action === action ? deed.count : 0), 0);
  const weighed = season.deeds.filter(({ action, grams }) => action === 'pick' && grams !== null);
  return {
    sown: of('sow'),
    picked: of('pick'),
    grams: weighed.length === 0 ? null : weighed.reduce((sum, { grams }) => sum + grams!, 0),
    lost: of('lose'),
    standing: standing.reduce((sum, plants) => sum + plants, 0),
  };
}

function weekPicks({ plan, days, deeds }: LoggedSeason): WeekPicks[] {
  const weeks = Array.from({ length: Math.ceil(days / 7) }, (_, week) => ({
    start: isoOfDay(plan.start, 7 * week),
    heads: 0,
    grams: null as number | null,
  }));
  for (const { action, day, count, grams } of deeds) {
    if (action !== 'pick') continue;
    const week = weeks[Math.floor(day / 7)]!;
    week.heads += count;
    if (grams !== null) week.grams = (week.grams ?? 0) + grams;
  }
  return weeks;
}
