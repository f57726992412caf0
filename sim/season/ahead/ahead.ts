/**
 * Looking ahead from what stands today: heads ready and picked in the next weeks, holes that will stand empty, batches that
 * will run out of room, and what to sow.
 *
 * Many futures are simulated. Each begins with a past that agrees with the log (stage-past.ts): so how long a plant still
 * needs is drawn given how long it has stood and that it was not ready yet. From there the line goes on by the plan. What
 * was due by the last visit and is not in the log is not sown any more.
 */

import { isoOfDay } from '../../models/dates.js';
import { holesOf, type Plan, seasonDays } from '../../models/plan.js';
import type { LogFault } from '../log-faults.js';
import type { LogRow } from '../rows.js';
import { type Advice, advise, trialRuns } from './advice.js';
import type { Batches } from './batches.js';
import { comingSeason } from './coming-season.js';
import { comingSowings } from './coming-sowings.js';
import { type Pause, runFutures, together } from './futures.js';
import { type EmptyHoles, HolesWatch } from './holes-watch.js';
import type { Openings } from './openings.js';
import type { Range } from './range.js';
import { RoomWatch, type ShortOfRoom } from './room-watch.js';
import { longestWay } from './seeds-that-fit.js';
import { SownWatch } from './sown-watch.js';
import type { Today } from './today.js';
import { WeeksWatch } from './weeks-watch.js';

export interface AheadOptions {
  /** Today, ISO 8601; if null, the date of the last row (of an empty log the start of the season). */
  readonly today: string | null;
  /** Weeks to look ahead, at least 1. */
  readonly weeks: number;
  /** Futures to simulate, at least 1. */
  readonly futures: number;
  /** Seed of the random streams; the plan's own if left out. */
  readonly seed?: number;
  readonly pause?: Pause;
}

export interface AheadResult {
  readonly title: string;
  /** ISO date of the first day that is to come: today, or the day after if today has rows. */
  readonly from: string;
  /** ISO date of the last visit that is over; null if there was none. */
  readonly last_visit: string | null;
  /** ISO dates of planned visits after it that cannot have been made: sowings were due, and none is in the log. */
  readonly missed: readonly string[];
  readonly futures: number;
  readonly seed: number;
  /** What stands now. */
  readonly now: readonly StageNow[];
  /** Plants that stand longer than the scenario's times allow; they are taken to be ready at the next visit. */
  readonly overdue: readonly { readonly batch: string; readonly stage: string; readonly plants: number }[];
  readonly weeks: readonly WeekAhead[];
  readonly stages: readonly StageAhead[];
  readonly no_room: readonly NoRoom[];
  /** null if no crop has a date on which it is sown in these weeks. */
  readonly sowings: Sowings | null;
  /** What refilled crops will be sown, visit by visit. */
  readonly refills: readonly Refill[];
}

export interface StageNow {
  readonly name: string;
  readonly holes: number;
  readonly plants: number;
  readonly cleaning: number;
}

export interface WeekAhead {
  /** ISO date of its first day. */
  readonly start: string;
  /** Heads that become ready to be picked. */
  readonly ready: Range;
  readonly picked: Range;
  /** Heads that are wanted in the week; null if no number is wanted. */
  readonly wanted: number | null;
}

export interface StageAhead {
  readonly name: string;
  readonly holes: number;
  /** Free and not being cleaned, now. */
  readonly empty_now: number;
  /** Empty on average over each of the weeks. */
  readonly empty: readonly Range[];
  /** When more will stand empty than now: ISO dates, and the share of futures in which they will; null if in none. */
  readonly first_empty: {
    readonly chance: number;
    readonly p10: string;
    readonly p50: string;
    readonly p90: string;
  } | null;
}

/** Plants of a batch that find no hole further on, or are ready for too long. */
export interface NoRoom {
  /** Name in the log; null for a batch that is still to be sown. */
  readonly batch: string | null;
  readonly crop: string;
  /** ISO date of its sowing. */
  readonly sown: string;
  readonly stage: string;
  /** Share of futures in which it happens to at least one plant. */
  readonly chance: number;
  /** ISO dates: when it begins and is over, in the middle one of these futures. */
  readonly from: string;
  readonly to: string;
  /** Ready plants that a visit could not move on. */
  readonly blocked: Range;
  readonly thrown_away: Range;
}

/** The coming sowings of crops with dates: the plan's seeds, and those that fill what would stand empty. */
export interface Sowings extends Omit<Advice, 'seeds'> {
  readonly dates: readonly {
    /** ISO date of the visit. */
    readonly date: string;
    readonly crop: string;
    readonly planned_seeds: number;
    readonly advised_seeds: number;
  }[];
  /** Heads are counted until this ISO date, not included. */
  readonly until: string;
}

export interface Refill {
  /** ISO date of the visit. */
  readonly date: string;
  readonly crop: string;
  readonly seeds: Range;
}

export type AheadReading =
  | { readonly ok: true; readonly result: AheadResult }
  | { readonly ok: false; readonly faults: readonly LogFault[] }
  /** `pause` said to stop. */
  | 'stopped';

/** Batches to which something happens in fewer futures are not told. */
const LEAST_CHANCE = 0.05;

/**
 * Weeks that a plan must have for looking `weeks` ahead: until all that is sown meanwhile has been picked.
 * @param from first day to come [d from the start]
 */
export function weeksNeeded(plan: Plan, from: number, weeks: number): number {
  return Math.ceil((from + 7 * weeksUntilPicked(plan, weeks)) / 7);
}

/** How many futures are run at most, those that try other seeds included. */
export function runsAhead(futures: number): number {
  return 2 * futures + trialRuns(futures);
}

function weeksUntilPicked(plan: Plan, weeks: number): number {
  return weeks + Math.ceil(longestWay(plan) / 7) + 1;
}

/**
 * @param plan whose season is long enough (`weeksNeeded`); it goes on by its own rules
 * @param rows of the log, as `readLog` hands them out for the plan's stages and crops
 * @returns faults if the log does not fit the plan
 * @throws RangeError if the plan's season is too short, or an option is out of range
 */
export async function lookAhead(
  plan: Plan,
  rows: readonly LogRow[],
  options: AheadOptions,
): Promise<AheadReading> {
  const { weeks, futures, seed = plan.seed, pause } = options;
  const reading = comingSeason(plan, rows, {
    today: options.today,
    seed,
    counts: { weeks, futures },
    weeks: (from) => weeksNeeded(plan, from, weeks),
  });
  if (!reading.ok) return reading;
  const { today, line, openings, batches } = reading.coming;
  const { from } = today;
  const days = line.visits.kind === 'days' ? line.visits.days : [];
  const last = line.stages.length - 1;
  const heads = new WeeksWatch(from, weeks, last);
  const holes = new HolesWatch(line, from, weeks);
  const room = new RoomWatch(batches, days, from + 7 * weeks, last);
  const untilPicked = weeksUntilPicked(plan, weeks);
  const all = new WeeksWatch(from, untilPicked, last);
  const sown = new SownWatch(
    line.crops.flatMap(({ sowing }, c) => (sowing.kind === 'refill' ? [c] : [])),
    days.filter((day) => day >= from && day < from + 7 * weeks),
  );
  const watcher = together([batches, heads, holes, room, all, sown]);
  if (!(await runFutures(line, openings, futures, seed, watcher, pause))) return 'stopped';

  const sowings = comingSowings(line, openings.opening(0)?.day ?? -1, from, from + 7 * weeks);
  const trials = { openings, futures, seed, from, weeks: untilPicked, pause };
  const advice = sowings.length === 0 ? null : await advise(line, sowings, all.totals, trials);
  if (sowings.length > 0 && advice === null) return 'stopped';

  const iso = (day: number): string => isoOfDay(plan.start, day);
  return {
    ok: true,
    result: {
      ...heading(plan, today, openings, iso),
      futures,
      seed,
      weeks: heads.weeks().map((week, i) => ({
        start: iso(from + 7 * i),
        ...week,
        wanted: wantedIn(line, from + 7 * i),
      })),
      stages: holes.stages().map((stage, s) => stageAhead(line, today, openings, s, stage, iso)),
      no_room: room
        .shortOfRoom()
        .filter(({ chance }) => chance >= LEAST_CHANCE)
        .map((short) => noRoom(line, batches, short, iso)),
      sowings:
        advice === null
          ? null
          : {
              planned: advice.planned,
              advised: advice.advised,
              difference: advice.difference,
              verdict: advice.verdict,
              dates: sowings.map(({ day, crop, planned }, i) => ({
                date: iso(day),
                crop: line.crops[crop]!.name,
                planned_seeds: planned,
                advised_seeds: advice.seeds[i]!,
              })),
              until: iso(Math.min(from + 7 * untilPicked, seasonDays(line))),
            },
      refills: sown
        .refilled()
        .map(({ day, crop, seeds }) => ({ date: iso(day), crop: line.crops[crop]!.name, seeds })),
    },
  };
}

type Iso = (day: number) => string;

function heading(plan: Plan, today: Today, openings: Openings, iso: Iso) {
  const last = today.visits.at(-1);
  return {
    title: plan.title,
    from: iso(today.from),
    last_visit: last === undefined ? null : iso(last),
    missed: today.missed.map(iso),
    now: plan.stages.map((stage, s) => ({
      name: stage.name,
      holes: holesOf(stage),
      plants: standingIn(openings, s),
      cleaning: cleaningIn(today, s),
    })),
    overdue: [...openings.overdue].map(([key, plants]) => {
      const [batch, stage] = key.split(' ').map(Number) as [number, number];
      return { batch: today.season.batches[batch]!.name, stage: plan.stages[stage]!.name, plants };
    }),
  };
}

function standingIn(openings: Openings, s: number): number {
  return openings.plants.filter(({ stage }) => stage === s).length;
}

function cleaningIn({ cleaning }: Today, s: number): number {
  return cleaning.reduce((sum, { stage, holes }) => sum + (stage === s ? holes : 0), 0);
}

function wantedIn({ want }: Plan, from: number): number | null {
  if (want === null) return null;
  return want.heads * want.days.filter((day) => day >= from && day < from + 7).length;
}

function stageAhead(
  plan: Plan,
  today: Today,
  openings: Openings,
  s: number,
  { weeks, first }: EmptyHoles,
  iso: Iso,
): StageAhead {
  const holes = holesOf(plan.stages[s]!);
  return {
    name: plan.stages[s]!.name,
    holes,
    empty_now: holes - standingIn(openings, s) - cleaningIn(today, s),
    empty: weeks,
    first_empty:
      first === null
        ? null
        : { chance: first.chance, p10: iso(first.p10), p50: iso(first.p50), p90: iso(first.p90) },
  };
}

function noRoom(plan: Plan, { all }: Batches, short: ShortOfRoom, iso: Iso): NoRoom {
  const { name, crop, sown } = all[short.batch]!;
  return {
    batch: name,
    crop: plan.crops[crop]!.name,
    sown: iso(sown),
    stage: plan.stages[short.stage]!.name,
    chance: short.chance,
    from: iso(short.from),
    to: iso(short.to),
    blocked: short.blocked,
    thrown_away: short.thrownAway,
  };
}
