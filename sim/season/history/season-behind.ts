/** The season behind a log: what stood and who came, with the plants that are never mentioned again gone. */

import { type Attendance, attendance } from './attendance.js';
import { type CohortsByStage, cohortsOf } from './cohorts.js';
import type { LoggedEvent, LoggedSeason } from './logged-season.js';
import { occupancy, type StageDays } from './occupancy.js';
import { surplusIn } from './overdue.js';
import { Readiness } from './readiness.js';
import { type ShortVisits, shortVisits } from './short-visits.js';
import { withoutSilentAbsences } from './silent-absence.js';
import { unseenLosses } from './unseen-losses.js';

export interface SeasonBehind {
  /** With `unseen` among its events. */
  readonly season: LoggedSeason;
  /** Losses of which no row tells. */
  readonly unseen: readonly LoggedEvent[];
  readonly cohorts: CohortsByStage;
  readonly came: Attendance;
  /** Of each stage. */
  readonly days: readonly StageDays[];
  readonly short: readonly ShortVisits[];
  readonly readiness: readonly Readiness[];
}

export function seasonBehind(logged: LoggedSeason): SeasonBehind {
  const unseen: LoggedEvent[] = [];
  for (let rounds = 0; ; rounds++) {
    const season = withEvents(logged, unseen);
    const cohorts = cohortsOf(season);
    const came = withoutSilentAbsences(season, cohorts, attendance(season, cohorts));
    const days = occupancy(season, cohorts, came.visits);
    const short = shortVisits(season, days, came.visits);
    const readiness = short.map((of, s) => new Readiness(season, s, cohorts, came.visits, of));
    const more = unseenLosses(season, cohorts, came.visits, readiness);
    // Holes that are free by this may show others further up to be overdue.
    if (more.length === 0 || rounds > season.plan.stages.length)
      return { season, unseen, cohorts, came, days, short, readiness };
    unseen.push(...more);
  }
}

/**
 * Losses of which no row tells in stages that have no room for all that stands there by the log: what is overdue there cannot be
 * standing still.
 */
export function lossesForWantOfRoom(logged: LoggedSeason, cohorts: CohortsByStage): LoggedEvent[] {
  const full = logged.plan.stages.map((_, s) => surplusIn(logged.plan, cohorts, s) > 0);
  return full.includes(true) ? seasonBehind(logged).unseen.filter(({ stage }) => full[stage]) : [];
}

/** The season with further events; of one day they come after those of the log. */
export function withEvents(season: LoggedSeason, more: readonly LoggedEvent[]): LoggedSeason {
  if (more.length === 0) return season;
  return { ...season, events: [...season.events, ...more].sort((a, b) => a.day - b.day) };
}
