/** Rebuilds a real season from its log: what stood where, which holes stood empty and why, and what else might have been. */

import { groupedBy, largest, sumOf } from '../../engine/lists.js';
import { dayFrom, isoOfDay } from '../../models/dates.js';
import { holesOf, type Plan, seasonDays } from '../../models/plan.js';
import { type Result, success } from '../../models/result.js';
import * as route from '../../models/route.js';
import { cohortsOf } from '../history/cohorts.js';
import { type LoggedEvent, type LoggedSeason, loggedSeason } from '../history/logged-season.js';
import { withDays } from '../history/plan-days.js';
import { seasonBehind } from '../history/season-behind.js';
import type { LogFault } from '../log/faults.js';
import type { LogRow } from '../log/rows.js';
import { channelDays } from './channel-days.js';
import { costs, NO_COSTS } from './costs.js';
import { emptyCosts } from './empty-costs.js';
import { failedBatches } from './failed-batches.js';
import { followed, plantsForEach } from './followed.js';
import { holeDays } from './hole-days.js';
import { idleSpells } from './idle-spells.js';
import { inferredSeason } from './infer-plan.js';
import { MeanFlow } from './mean-flow.js';
import type { Crowded, ReplayedStage, ReplayResult, WeekPicks } from './result.js';
import { seasonDraws } from './season-draws.js';
import { waitingPlants } from './waiting.js';
import { type CadenceChange, whatIf } from './what-if.js';

/**
 * @param rows at least one, in the order of their dates, as `readLog` hands them out
 * @param stages names of the stages, as `readLog` hands them out
 * @param plan of the line; null if no scenario is known
 * @param options `change`: another cadence to try with the season's own luck
 * @returns faults if log and plan do not belong together
 */
export function replaySeason(
  rows: readonly LogRow[],
  stages: readonly string[],
  plan: Plan | null,
  { change = null }: { readonly change?: CadenceChange | null } = {},
): Result<ReplayResult, LogFault> {
  if (plan === null) {
    return success(resultOf(inferredSeason(rows, stages), change));
  }
  const framing = loggedSeason(rows, fromItsBeginning(plan, rows), true);
  if (!framing.ok) return framing;
  return success(resultOf(framing.value, change));
}

/** The plan from the day on which a log begins that says what stood then: of what was before it tells nothing. */
function fromItsBeginning(plan: Plan, rows: readonly LogRow[]): Plan {
  const start = rows[0]!.date;
  const shift = dayFrom(plan.start, start);
  if (shift <= 0 || !rows.some(({ action, date }) => action === 'stand' && date === start)) return plan;
  const later = (days: readonly number[]) => days.filter((day) => day >= shift).map((day) => day - shift);
  return { ...withDays(plan, later), start, weeks: Math.max(1, Math.ceil(plan.weeks - shift / 7)) };
}

function resultOf(logged: LoggedSeason, change: CadenceChange | null): ReplayResult {
  const { season, unseen, cohorts, came, days, short, readiness } = seasonBehind(logged);
  const meanFlow = new MeanFlow(season);
  const waiting = readiness
    .filter((_, s) => !route.isLast(season.plan, s))
    .map((ready, s) => waitingPlants(season, s, cohorts, ready));
  // Of a batch that is never mentioned again nobody knows that it failed.
  const failed = failedBatches(logged, cohortsOf(logged));
  const evidence = { season, attendance: came, stages: days, meanFlow, failed, cohorts, waiting };
  const idle = idleSpells(evidence);
  const empty = emptyCosts(season.plan, idle);
  const ledgers = holeDays(season, cohorts, days, short, came);
  const channels = channelDays(season);
  const begunMidway = season.batches.some(({ seeds }) => seeds === 0);
  const each = begunMidway ? 1 : plantsForEach(cohorts);
  const several = season.plan.crops.some(({ cuts }) => cuts > 1);
  const scarcest = meanFlow.scarcest();
  const weeks = weekPicks(season);
  const date = (day: number): string => isoOfDay(season.plan.start, day);
  const stages = season.plan.stages.map(
    (stage, s): ReplayedStage => ({
      name: stage.name,
      holes: holesOf(stage),
      hole_days: holesOf(stage) * season.days,
      ledger: ledgers[s]!,
      exact: !(several && route.isLast(season.plan, s)),
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
    rows: logged.events.length,
    batches: season.batches.length,
    counts: counts(
      logged,
      days.map(({ standing }) => standing.at(-1)!),
    ),
    crowded: crowdedIn(stages, date),
    weeks,
    missed_visits: came.missed.map(date),
    scarcest: scarcest === null ? null : season.plan.stages[scarcest]!.name,
    ...(each > 1 && { plants_for_each: each }),
    ...(begunMidway ? NO_COSTS : costs(evidence, readiness, short, weeks, each)),
    unseen: unseenOf(season, unseen),
    idle,
    ...(empty && { empty_cost: empty }),
    stages,
    what_if:
      change === null
        ? null
        : whatIf(
            season,
            seasonDraws(season, followed(cohorts, season.plan, each, 0), readiness),
            came.visits,
            weeks,
            change,
            each,
          ),
  };
}

function unseenOf({ plan, batches }: LoggedSeason, unseen: readonly LoggedEvent[]): ReplayResult['unseen'] {
  return [...groupedBy(unseen, ({ stage }) => stage)].map(([stage, lost]) => ({
    stage: plan.stages[stage]!.name,
    plants: sumOf(lost.map(({ count }) => count)),
    batches: [...new Set(lost.map(({ batch }) => batches[batch]!.name))],
  }));
}

function crowdedIn(stages: readonly ReplayedStage[], date: (day: number) => string): Crowded[] {
  return stages.flatMap(({ name, holes, exact, standing }) => {
    const first = standing.findIndex((plants) => plants > holes);
    if (!exact || first === -1) return [];
    return [{ stage: name, holes, from: date(first), most: largest(standing) }];
  });
}

function counts(season: LoggedSeason, standing: readonly number[]): ReplayResult['counts'] {
  const of = (action: 'sow' | 'stand' | 'pick' | 'lose'): number =>
    season.events.reduce((sum, event) => sum + (event.action === action ? event.count : 0), 0);
  const weighed = season.events.filter(({ action, grams }) => action === 'pick' && grams !== null);
  return {
    sown: of('sow'),
    stood: of('stand'),
    picked: of('pick'),
    grams: weighed.length === 0 ? null : weighed.reduce((sum, { grams }) => sum + grams!, 0),
    lost: of('lose'),
    standing: standing.reduce((sum, plants) => sum + plants, 0),
  };
}

function weekPicks({ plan, days, events }: LoggedSeason): WeekPicks[] {
  const weeks = Array.from({ length: Math.ceil(days / 7) }, (_, week) => ({
    start: isoOfDay(plan.start, 7 * week),
    heads: 0,
    grams: null as number | null,
  }));
  for (const { action, day, count, grams } of events) {
    if (action !== 'pick') continue;
    const week = weeks[Math.floor(day / 7)]!;
    week.heads += count;
    if (grams !== null) week.grams = (week.grams ?? 0) + grams;
  }
  return weeks;
}
