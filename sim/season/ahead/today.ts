/**
 * Where a season stands according to its log: what stands, which holes are out of use, which visits were made.
 *
 * The log is taken to tell all that was done up to the last day before the first day to come. That is today, if today has no
 * row yet: then its visit is still to be made. If it has one, that visit is over.
 */

import { toGrid } from '../../engine/clock.js';
import { dayFrom } from '../../models/dates.js';
import type { Cleaning } from '../../models/initial-state.js';
import type { Plan } from '../../models/plan.js';
import { failure, type Result, success } from '../../models/result.js';
import { attendance } from '../history/attendance.js';
import { type CohortsByStage, cohortsOf } from '../history/cohorts.js';
import { crowded } from '../history/log-faults.js';
import { dateFault, type LoggedEvent, type LoggedSeason, loggedSeason } from '../history/logged-season.js';
import { occupancy, type StageDays, stageCohorts } from '../history/occupancy.js';
import { lossesForWantOfRoom, withEvents } from '../history/season-behind.js';
import { type ShortVisits, shortVisits } from '../history/short-visits.js';
import type { LogFault } from '../log/faults.js';
import type { LogRow } from '../log/rows.js';

export interface Today {
  /** With `unseen` among its events. */
  readonly season: LoggedSeason;
  /** Losses of which no row tells: of overdue plants for which there is no room any more. */
  readonly unseen: readonly LoggedEvent[];
  readonly cohorts: CohortsByStage;
  /** First day to come [d from the start]. */
  readonly from: number;
  /** Visits that were made, ascending [d]. */
  readonly visits: readonly number[];
  /** Planned visits after the last one that cannot have been made, as sowings were due and were not sown [d] */
  readonly missed: readonly number[];
  /** Of each stage: the visits after which ready plants may have been left behind. */
  readonly short: readonly ShortVisits[];
  /** Holes that are being cleaned. */
  readonly cleaning: readonly Cleaning[];
  /** For each stage whether a plant has ever come into it. */
  readonly reached: readonly boolean[];
}

/**
 * @param rows as `readLog` hands them out for the plan's stages and crops
 * @param plan whose season reaches beyond today; with `visits: always` it is taken as visited daily
 * @param date of today, ISO 8601; if null, that of the last row (of an empty log the start of the season)
 * @returns faults if rows lie outside the season or after today, or more stands than the plan has holes, even
 * without what is overdue
 */
export function todayOf(rows: readonly LogRow[], plan: Plan, date: string | null): Result<Today, LogFault> {
  const lastRow = rows.at(-1);
  const later = date === null ? [] : rows.filter((row) => row.date > date);
  if (later.length > 0) {
    const advice = `Look ahead from ${later.at(-1)!.date}, or from a later day.`;
    return failure([dateFault(later, `no row after ${date}, the day from which to look ahead`, advice)]);
  }
  const day = dayFrom(plan.start, date ?? lastRow?.date ?? plan.start);
  const from = Math.max(
    0,
    lastRow !== undefined && dayFrom(plan.start, lastRow.date) === day ? day + 1 : day,
  );
  const framing = loggedSeason(rows, plan, true, from);
  if (!framing.ok) return framing;
  const logged = framing.value;
  const told = cohortsOf(logged);
  const faults = rows.length === 0 ? [] : crowded(rows, logged, told);
  if (faults.length > 0) return failure(faults);
  const unseen = lossesForWantOfRoom(logged, told);
  const season = withEvents(logged, unseen);
  const cohorts = unseen.length === 0 ? told : cohortsOf(season);
  const { visits, missed } = attendance(season, cohorts);
  const stages = occupancy(season, cohorts, visits);
  const lastVisit = visits.at(-1) ?? -1;
  return success({
    season,
    unseen,
    cohorts,
    from,
    visits,
    missed: rows.length === 0 ? [] : missed.filter((missing) => missing > lastVisit),
    short: shortVisits(season, stages, visits),
    cleaning:
      lastVisit < 0 ? [] : stages.flatMap((_, s) => cleaningNow(season, cohorts, stages, s, lastVisit)),
    reached: plan.stages.map((_, s) => cohorts[s]!.length > 0),
  });
}

/** Holes of a stage that are out of use after the last visit. */
function cleaningNow(
  { plan, days }: LoggedSeason,
  cohorts: CohortsByStage,
  stages: readonly StageDays[],
  s: number,
  lastVisit: number,
): Cleaning[] {
  const { cleaning, logged, rests } = stages[s]!;
  const cleanDays = toGrid(plan.stages[s]!.cleanDays);
  const found: Cleaning[] = [];
  /** Of what is given, as many as there are. */
  const take = (most: number, given: Iterable<{ holes: number; until: number }>): void => {
    let left = most;
    for (const { holes, until } of given) {
      const taken = Math.min(left, holes);
      if (taken > 0) found.push({ stage: s, holes: taken, until: Math.max(lastVisit, until) });
      left -= taken;
    }
  };
  const byRows = Math.min(logged[lastVisit]!, cleaning[lastVisit]!);
  const afterPlants = stageCohorts(cohorts, s, plan).flatMap(({ stays }) =>
    stays
      .filter(({ to, vacates }) => vacates && to + cleanDays > lastVisit)
      .map(({ to, count }) => ({ holes: count, until: to + cleanDays })),
  );
  take(cleaning[lastVisit]! - byRows, afterPlants);
  // How long somebody leaves a channel open that a row names is not known: for the usual days, it is taken.
  const open = rests.filter(({ to }) => to >= days);
  take(
    byRows,
    open.map(({ holes, from }) => ({ holes, until: from + cleanDays })),
  );
  return found;
}
