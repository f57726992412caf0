/** A season without some of its causes: the same line with other visits, sowings, room, or fates of a batch. */

import { weekdayOfDay } from '../../models/dates.js';
import type { Plan } from '../../models/plan.js';
import type { Attendance } from '../history/attendance.js';
import { usualGap } from '../history/attendance.js';
import type { LoggedSeason } from '../history/logged-season.js';
import type { FailedBatch } from './failed-batches.js';
import { type Seeds, type SowingVisit, seedsIn, sowingOf } from './intended-sowings.js';
import { planOf } from './simulated.js';

/** What is taken away. */
export interface Removal {
  /** Days of visits after which nobody came for long: the visits that were missed then are made. */
  readonly absences?: readonly number[];
  /** Somebody comes every day, but for absences. */
  readonly daily?: boolean;
  /** Days of visits that sow as planned. */
  readonly asPlanned?: readonly number[];
  /** Seeds of all other sowings, as a multiple. */
  readonly seeds?: number;
  /** Stages that have so many channels more; Infinity: room for all. */
  readonly channels?: readonly { readonly stage: number; readonly more: number }[];
  /** Ready plants keep for ever. */
  readonly keeps?: boolean;
  /** Batches that lose what the plan expects. */
  readonly failed?: readonly FailedBatch[];
  /** Crops that grow in a stage in so much of the time that they took. */
  readonly pace?: readonly { readonly crop: number; readonly stage: number; readonly times: number }[];
}

/** Several removals at once. */
export function together(removals: readonly Removal[]): Removal {
  return {
    absences: removals.flatMap(({ absences = [] }) => absences),
    daily: removals.some(({ daily }) => daily),
    asPlanned: removals.flatMap(({ asPlanned = [] }) => asPlanned),
    seeds: removals.reduce((most, { seeds = 1 }) => Math.max(most, seeds), 1),
    channels: removals.flatMap(({ channels = [] }) => channels),
    keeps: removals.some(({ keeps }) => keeps),
    failed: removals.flatMap(({ failed = [] }) => failed),
    pace: removals.flatMap(({ pace = [] }) => pace),
  };
}

/** Whether a removal changes the fates of plants. */
export function changesFates({ failed = [], pace = [] }: Removal): boolean {
  return failed.length + pace.length > 0;
}

/**
 * The season's plan without what is taken away.
 * @param sowings of each crop, visit by visit; null if it is sown by the plan's rule, `refill`
 */
export function planWithout(
  season: LoggedSeason,
  came: Attendance,
  sowings: readonly (readonly SowingVisit[] | null)[],
  removal: Removal,
): Plan {
  const { absences = [], daily = false, channels = [], keeps = false } = removal;
  const { visits } = came;
  const made = new Map(absences.map((since) => [since, missedAfter(season, came, since)]));
  const added = daily ? everyDay(visits, season.days) : [];
  const all = [...new Set([...visits, ...added, ...[...made.values()].flat()])].sort((a, b) => a - b);
  const sown = sowings.map((mine) => mine && sownWithout(mine, made, removal));
  const seeds = Math.max(seedsIn(season.batches), seedsIn(sown.flatMap((mine) => mine ?? [])));
  const refill = { kind: 'refill' } as const;
  const plan = planOf(
    season,
    all,
    sown.map((mine) => (mine === null ? refill : sowingOf(mine))),
  );
  return {
    ...plan,
    stages: plan.stages.map((stage, s) => {
      const more = channels.find((one) => one.stage === s)?.more ?? 0;
      const forAll = Math.ceil(seeds / stage.holesPerChannel);
      return { ...stage, channels: Math.min(stage.channels + more, Math.max(stage.channels, forAll)) };
    }),
    crops: keeps
      ? plan.crops.map((crop) => ({
          ...crop,
          stages: crop.stages.map((growing) => ({ ...growing, keeps: Infinity })),
        }))
      : plan.crops,
  };
}

/** Places of the visits after which nobody came for longer than usual: 9 in 10 gaps are no longer. */
export function longGaps(visits: readonly number[], days: number): number[] {
  const usual = usualGap(visits);
  return [...visits.keys()].filter((i) => (visits[i + 1] ?? days) - visits[i]! > usual);
}

/** Every day between visits, but where nobody came for long. */
function everyDay(visits: readonly number[], days: number): number[] {
  const long = new Set(longGaps(visits, days));
  return visits.flatMap((day, i) =>
    long.has(i) ? [] : Array.from({ length: (visits[i + 1] ?? days) - day }, (_, k) => day + k),
  );
}

/**
 * The visits that were missed after one: those of the plan; if it has none then, those of the season's own rhythm (the weekdays on
 * which somebody came in at least half of the weeks, else a visit after each middling gap).
 */
function missedAfter({ plan, days }: LoggedSeason, { visits, missed }: Attendance, since: number): number[] {
  const until = visits[visits.indexOf(since) + 1] ?? days;
  const between = (day: number): boolean => since < day && day < until;
  const planned = missed.filter(between);
  if (planned.length > 0) return planned;
  const weekday = (day: number): number => weekdayOfDay(plan.start, day);
  const came = new Float64Array(7);
  for (const day of visits) came[weekday(day)]!++;
  const inBetween = Array.from({ length: until - since - 1 }, (_, k) => since + 1 + k);
  const rhythm = inBetween.filter((day) => came[weekday(day)]! >= days / 14);
  if (rhythm.length > 0) return rhythm;
  const gaps = visits.slice(1).map((day, i) => day - visits[i]!);
  const middling = gaps.sort((a, b) => a - b)[Math.floor(gaps.length / 2)] ?? 1;
  return inBetween.filter((day) => (day - since) % middling === 0);
}

/** What is sown of a crop. @param made visits that are made after the days of others */
function sownWithout(
  visits: readonly SowingVisit[],
  made: ReadonlyMap<number, readonly number[]>,
  { asPlanned = [], seeds: times = 1 }: Removal,
): Seeds[] {
  const daily = visits.reduce((sum, { sown }) => sum + sown, 0) / visits.at(-1)!.day;
  const mended = new Set(asPlanned);
  let exact = 0;
  let whole = 0;
  return visits
    .flatMap((visit) => {
      const { day, since, sown, due } = visit;
      const planned = visit.asPlanned || mended.has(day);
      const added = made.get(since) ?? [];
      const last = added.at(-1);
      if (last === undefined) return planned ? [...due] : [{ day, seeds: sown }];
      if (due.length === 0) return sharedOut(visit, added, daily);
      const before = due.filter((one) => one.day <= last);
      const own = due.filter((one) => one.day > last);
      if (planned) return [...before, ...own];
      // What was sown beyond all that was due was meant; what was made up for, is sown in its time.
      const beyond = Math.max(0, sown - seedsIn(due));
      return [...before, { day, seeds: Math.min(sown, seedsIn(own)) + beyond }];
    })
    .map(({ day, seeds }) => {
      // Whole seeds, so that the sum is that of the fractions.
      exact += seeds * times;
      const before = whole;
      whole = Math.round(exact);
      return { day, seeds: whole - before };
    })
    .filter(({ seeds }) => seeds > 0);
}

/** Seeds of a crop that is never due, sown evenly over the visits that are made: as many as on average, or as were made up for. */
function sharedOut({ day, since, sown }: SowingVisit, added: readonly number[], daily: number): Seeds[] {
  const a_day = Math.max(daily, sown / (day - since));
  return [...added, day].map((on, i, all) => ({ day: on, seeds: a_day * (on - (all[i - 1] ?? since)) }));
}
