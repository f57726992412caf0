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
import { type Result, success } from '../../models/result.js';
import { dailyVisits } from '../history/plan-days.js';
import type { LogFault } from '../log/faults.js';
import type { LogRow } from '../log/rows.js';
import { type LostToAbsence, lostToAbsence } from './absence.js';
import { type Advice, advise, type PairedDifference, trialRuns } from './advice.js';
import { type Assumed, assumedOf } from './assumed.js';
import { Batches } from './batches.js';
import { blockedCost, costRuns } from './blocked-cost.js';
import { comingSeason, type LookOptions } from './coming-season.js';
import { comingSowings, type MadeUpFor, madeUpFor, sowingsWithoutVisit } from './coming-sowings.js';
import type { Forecast } from './forecast.js';
import { runFutures } from './futures.js';
import { type EmptyHoles, emptyHoles } from './holes-watch.js';
import type { InitialStates } from './initial-states.js';
import { type Overgrown, overgrown } from './room-watch.js';
import { longestGrowth, longestWay } from './seeds-that-fit.js';
import { refilled } from './sown-watch.js';
import { type TakesAhead, takesAhead } from './takes-ahead.js';
import type { Today } from './today.js';
import { picksIn, weekHeads } from './weeks-watch.js';

export interface AheadOptions extends LookOptions {
  /** Weeks to look ahead, at least 1. */
  readonly weeks: number;
}

export interface AheadResult extends Assumed {
  readonly title: string;
  /** ISO date of the first day that is to come: today, or the day after if today has rows. */
  readonly from: string;
  readonly futures: number;
  readonly seed: number;
  /** What stands now. */
  readonly now: readonly StageNow[];
  /** Planned visits in these weeks. */
  readonly visits: number;
  readonly weeks: readonly WeekAhead[];
  /** What these weeks take beside holes; left out where the scenario tells nothing of it. */
  readonly takes?: TakesAhead;
  readonly stages: readonly StageAhead[];
  readonly no_room: readonly NoRoom[];
  /**
   * Heads that come with room without limit behind the first stage, less those with the line's holes, of all that is sown in
   * these weeks; null if no plant finds no room, or where crops are refilled, since what is sown then depends on the room.
   */
  readonly blocked_cost: PairedDifference | null;
  readonly overgrown: readonly ThrownAway[];
  /** null if no crop has a date on which it is sown in these weeks. */
  readonly sowings: Sowings | null;
  /** What refilled crops will be sown, visit by visit. */
  readonly refills: readonly RefillSowing[];
  /** Visits at which sowings are made up for or dropped, by the rule of the line. */
  readonly missed_sowings: readonly MadeUpFor[];
  /** Sowings of these weeks of which many plants would be thrown away because nobody is there. */
  readonly lost_to_absence: readonly LostToAbsence[];
  /** What falls due in these weeks and nobody comes to sow in them. */
  readonly not_sown: readonly { readonly due: string; readonly crop: string; readonly seeds: number }[];
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
  readonly ready: Forecast;
  readonly picked: Forecast;
  /** Heads that are wanted in the week; null if no number is wanted. */
  readonly wanted: number | null;
}

export interface StageAhead {
  readonly name: string;
  readonly holes: number;
  /** Free and not being cleaned, now. */
  readonly empty_now: number;
  /** Empty on average over each of the weeks. */
  readonly empty: readonly Forecast[];
  /** When more will stand empty than now: ISO dates, and the share of futures in which they will; null if in none. */
  readonly first_empty: {
    readonly chance: number;
    readonly p10: string;
    readonly p50: string;
    readonly p90: string;
  } | null;
}

/** Plants of a batch that are ready for too long, though not for want of a hole: nobody comes in time, or they are not wanted. */
export interface ThrownAway {
  /** Name in the log; null for a batch that is still to be sown. */
  readonly batch: string | null;
  readonly crop: string;
  /** ISO date of its sowing; null if it stood before the log told of it. */
  readonly sown: string | null;
  readonly stage: string;
  /** Share of futures in which it happens to at least one plant. */
  readonly chance: number;
  /** ISO dates: when it begins and is over, the median of these futures. */
  readonly from: string;
  readonly to: string;
  readonly thrown_away: Forecast;
}

/** Plants of a batch that find no hole further on; some of them are ready for too long in the end. */
export interface NoRoom extends ThrownAway {
  /** Ready plants that a visit could not move on. */
  readonly blocked: Forecast;
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

export interface RefillSowing {
  /** ISO date of the visit. */
  readonly date: string;
  readonly crop: string;
  readonly seeds: Forecast;
}

/** Batches to which something happens in fewer futures are not told. */
const LEAST_CHANCE = 0.05;

/**
 * Weeks that a plan must have for looking `weeks` ahead: until all that is sown meanwhile has been picked.
 * @param from first day to come [d from the start]
 */
export function weeksNeeded(plan: Plan, from: number, weeks: number): number {
  return Math.ceil((from + 7 * weeksUntilPicked(plan, weeks)) / 7);
}

/**
 * Weeks that are run: all that are needed, or those that the plan has, if nothing but waits is cut off. A plan that is made
 * longer may have longer gaps between visits, and then needs more than it was given: somebody who is away for ever never comes.
 * @param from first day to come [d from the start]
 */
function weeksToRun(plan: Plan, from: number, weeks: number): number {
  const least = Math.ceil((from + 7 * weeks + longestGrowth(plan)) / 7);
  return Math.min(weeksNeeded(plan, from, weeks), Math.max(plan.weeks, least));
}

/** How many futures are run at most, those that try other seeds included. */
export function runsAhead(futures: number): number {
  return 2 * futures + trialRuns(futures) + costRuns(futures);
}

function weeksUntilPicked(plan: Plan, weeks: number): number {
  return weeks + Math.ceil(longestWay(plan) / 7) + 1;
}

/**
 * @param plan whose season is long enough (`weeksNeeded`); it goes on by its own rules
 * @param rows of the log, as `readLog` hands them out for the plan's stages and crops
 * @returns faults if the log does not fit the plan; null if `pause` said to stop
 * @throws RangeError if the plan's season is too short for what is sown to be picked, or an option is out of range
 */
export async function lookAhead(
  plan: Plan,
  rows: readonly LogRow[],
  options: AheadOptions,
): Promise<Result<AheadResult, LogFault> | null> {
  const { weeks, futures } = options;
  const reading = await comingSeason(plan, rows, options, {
    counts: { weeks, futures },
    weeks: (from) => weeksToRun(plan, from, weeks),
    runs: runsAhead(futures),
  });
  if (!reading.ok) return reading;
  const { today, line, setup } = reading.value;
  const { openings: initialStates, seed } = setup;
  const { from, season } = today;
  const to = from + 7 * weeks;
  const untilPicked = Math.min(weeksUntilPicked(plan, weeks), Math.floor((seasonDays(line) - from) / 7));
  const visits = dailyVisits(line).filter((day) => day >= from && day < to);
  const refilledCrops = line.crops.flatMap(({ sowing }, crop) => (sowing.kind === 'refill' ? [crop] : []));
  const refills = visits.flatMap((day) => refilledCrops.map((crop) => ({ day, crop })));
  const looked = { from, weeks, batches: reading.value.batches, untilPicked, refills };
  const seen = await runFutures(line, futures, setup, 'nextWeeks', looked);
  if (seen === null) return null;

  const over = initialStates.stand?.day ?? -1;
  const sowings = comingSowings(line, over, from, to);
  const planned = picksIn(seen.map(({ all }) => all));
  const until = { from, weeks: untilPicked };
  const advice = sowings.length === 0 ? null : await advise(line, sowings, planned, setup, until);
  if (sowings.length > 0 && advice === null) return null;

  const lost = await lostToAbsence(plan, options.attended ?? null, from, to, futures, setup);
  if (lost === null) return null;

  const batches = new Batches(
    line,
    season.batches,
    seen.map((one) => one.batches),
  );
  const room = seen.map((one) => one.room);
  const told = (short: boolean) =>
    overgrown(room, batches, short).filter(({ chance }) => chance >= LEAST_CHANCE);
  const noRoom = told(true);
  const cost = noRoom.length === 0 ? { heads: null } : await blockedCost(line, to, futures, setup, until);
  if (cost === null) return null;
  const iso = (day: number): string => isoOfDay(plan.start, day);
  const now = stagesNow(plan, today, initialStates);
  const seeds = refilled(
    refills,
    seen.map(({ sown }) => sown),
  );
  const weekStarts = Array.from({ length: weeks }, (_, week) => iso(from + 7 * week));
  const takes = takesAhead(
    line,
    seen.map((one) => one.takes),
    weekStarts,
  );
  return success({
    title: plan.title,
    from: iso(from),
    ...assumedOf(today, initialStates),
    now,
    futures,
    seed,
    visits: visits.length,
    weeks: weekHeads(seen.map(({ heads }) => heads)).map((week, i) => ({
      start: weekStarts[i]!,
      ...week,
      wanted: wantedIn(line, from + 7 * i),
    })),
    ...(takes && { takes }),
    stages: emptyHoles(seen.map(({ holes }) => holes)).map((empty, s) => stageAhead(now[s]!, empty, iso)),
    blocked_cost: cost.heads,
    no_room: noRoom.map((one) => ({ ...thrownAway(line, batches, one, iso), blocked: one.blocked })),
    overgrown: told(false).map((one) => thrownAway(line, batches, one, iso)),
    sowings: advice && {
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
      until: iso(from + 7 * untilPicked),
    },
    refills: refills.map(({ day, crop }, i) => ({
      date: iso(day),
      crop: line.crops[crop]!.name,
      seeds: seeds[i]!,
    })),
    lost_to_absence: lost,
    missed_sowings: madeUpFor(line, sowings),
    not_sown: sowingsWithoutVisit(line, over, from, to).map(({ due, crop, seeds }) => ({
      due: iso(Math.floor(due)),
      crop: line.crops[crop]!.name,
      seeds,
    })),
  });
}

type Iso = (day: number) => string;

function stagesNow(plan: Plan, { cleaning }: Today, { stand }: InitialStates): StageNow[] {
  return plan.stages.map((stage, s) => ({
    name: stage.name,
    holes: holesOf(stage),
    plants: stand?.plants.stage.reduce((sum, place) => sum + (place === s ? 1 : 0), 0) ?? 0,
    cleaning: cleaning.reduce((sum, { stage: place, holes }) => sum + (place === s ? holes : 0), 0),
  }));
}

function wantedIn({ want }: Plan, from: number): number | null {
  if (want === null) return null;
  return want.heads * want.days.filter((day) => day >= from && day < from + 7).length;
}

function stageAhead(
  { name, holes, plants, cleaning }: StageNow,
  { weeks, first }: EmptyHoles,
  iso: Iso,
): StageAhead {
  return {
    name,
    holes,
    empty_now: holes - plants - cleaning,
    empty: weeks,
    first_empty: first && {
      chance: first.chance,
      p10: iso(first.p10),
      p50: iso(first.p50),
      p90: iso(first.p90),
    },
  };
}

function thrownAway(plan: Plan, { all }: Batches, one: Overgrown, iso: Iso): ThrownAway {
  const { name, crop, sown, stood } = all[one.batch]!;
  return {
    batch: name,
    crop: plan.crops[crop]!.name,
    sown: stood ? null : iso(sown),
    stage: plan.stages[one.stage]!.name,
    chance: one.chance,
    from: iso(one.from),
    to: iso(one.to),
    thrown_away: one.thrownAway,
  };
}
