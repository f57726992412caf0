/**
 * The work list: on each visit of the next days what to clear, pick, move, sow and clean, with the number that is expected
 * and a range.
 *
 * With a log the list goes on from what stands (see ahead/ahead.ts); without one it is the scenario's plan, from an empty
 * line on its first day. Counts are over many futures. A batch that is still to be sown gets the next free number as its name,
 * in the order of sowing, if it is sown in at least half of them.
 */

import { groupedBy, largest } from '../../engine/lists.js';
import { streamKey } from '../../engine/random.js';
import { isoOfDay, weekdayOfDay } from '../../models/dates.js';
import { TAKES_CAUTION } from '../../models/physical/cautions.js';
import type { Plan } from '../../models/plan.js';
import { type Result, success } from '../../models/result.js';
import * as route from '../../models/route.js';
import { dailyVisits } from '../history/plan-days.js';
import type { LogFault } from '../log/faults.js';
import type { LogRow } from '../log/rows.js';
import { type LostToAbsence, lostToAbsence } from './absence.js';
import { type Assumed, assumedOf } from './assumed.js';
import { type AnyBatch, Batches } from './batches.js';
import { CHORES, type ChoreKind, type CountedChore, countedChores, weeklyChores } from './chores-watch.js';
import { comingSeason, type LookOptions } from './coming-season.js';
import { comingSowings, type MadeUpFor, madeUpFor } from './coming-sowings.js';
import type { Forecast } from './forecast.js';
import { runFutures } from './futures.js';
import type { TakesRange } from './takes-ahead.js';
import { visitMinutes } from './visit-minutes.js';

export interface ChoresOptions extends LookOptions {
  /** Days to list, at least 1. */
  readonly days: number;
}

export interface ChoresResult extends Assumed {
  readonly title: string;
  /** Letters and digits that stand for the title: the same in every list of the line. */
  readonly id: string;
  /** ISO date of the first day that is listed. */
  readonly from: string;
  /** ISO date of the last day that is listed. */
  readonly to: string;
  /** Grows with every row of the log and every day: a list with a greater one is the newer. */
  readonly revision: number;
  readonly futures: number;
  readonly seed: number;
  readonly visits: readonly VisitChores[];
  /** The same summed up week by week, from Monday to Sunday; batches by crop, of sowings only. */
  readonly weeks: readonly WeekChores[];
  /** Visits at which sowings are made up for or dropped, by the rule of the line. */
  readonly missed_sowings: readonly MadeUpFor[];
  /** Listed sowings of which many plants would be thrown away because nobody is there. */
  readonly lost_to_absence: readonly LostToAbsence[];
  /** What there is to mind beside minutes; only where the scenario tells of work. */
  readonly assumes?: readonly string[];
}

export interface VisitChores {
  /** ISO date. */
  readonly date: string;
  /** In the order of a visit; empty if nothing is to be done, as far as can be told. */
  readonly chores: readonly Chore[];
  /** How long it takes, its fixed minutes included [min]; only where the scenario tells of work. */
  readonly minutes?: TakesRange;
}

export interface WeekChores extends Pick<VisitChores, 'chores' | 'minutes'> {
  /** ISO date of its Monday. */
  readonly start: string;
  /** Visits that are listed. */
  readonly visits: number;
}

export interface Chore {
  /** As in a log. `lose`: dead, failed or overgrown plants to clear. `clean`: holes that plants leave on this visit. */
  readonly action: ChoreKind;
  /** The stage; of a move the one moved into. */
  readonly stage: string;
  /** Of a move the stage moved from; else null. */
  readonly from: string | null;
  /** Seeds, plants or holes. */
  readonly count: Forecast;
  /** The batches of which they are; none for `clean`. */
  readonly batches: readonly BatchChore[];
}

export interface BatchChore {
  /** Name in the log, or one that fits; null for a batch that is sown in fewer than half of the futures. */
  readonly batch: string | null;
  readonly crop: string;
  readonly count: Forecast;
}

/** Of what fewer are expected, nothing is said. */
const LEAST = 0.05;
/** Share of futures in which a batch must be sown to get a name. */
const NAMED = 0.5;

/** Weeks that a plan must have to list so many days. @param from first day to come [d from the start] */
export function weeksToList(from: number, days: number): number {
  return Math.ceil((from + days) / 7);
}

/**
 * @param plan whose season is long enough (`weeksToList`); it goes on by its own rules
 * @param rows of the log, as `readLog` hands them out for the plan's stages and crops; none if there is no log
 * @returns faults if the log does not fit the plan; null if `pause` said to stop
 * @throws RangeError if the plan's season is too short, or an option is out of range
 */
export async function listChores(
  plan: Plan,
  rows: readonly LogRow[],
  options: ChoresOptions,
): Promise<Result<ChoresResult, LogFault> | null> {
  const { days, futures } = options;
  const reading = await comingSeason(plan, rows, options, {
    counts: { days, futures },
    weeks: (from) => weeksToList(from, days),
    runs: futures,
  });
  if (!reading.ok) return reading;
  const { today, line, setup } = reading.value;
  const { from, season } = today;
  const looked = { from, to: from + days, batches: reading.value.batches };
  const seen = await runFutures(line, futures, setup, 'chores', looked);
  if (seen === null) return null;

  const { attended = null } = options;
  const lost = await lostToAbsence(plan, attended, from, from + days, futures, setup);
  if (lost === null) return null;

  const batches = new Batches(
    line,
    season.batches,
    seen.map((one) => one.batches),
  );
  const counted = countedChores(
    seen.map((one) => one.chores),
    (batch) => batches.placeOf(batch),
  );
  const weekOf = (day: number): number => day - weekdayOfDay(plan.start, day);
  const cropOf = (batch: number): number => batches.all[batches.placeOf(batch)]!.crop;
  const weekly = countedChores(
    seen.map((one) => weeklyChores(one.chores, weekOf, cropOf)),
    (crop) => crop,
  );
  const visits = dailyVisits(line).filter((day) => day >= from && day < from + days);
  const takenBy = (groupOf: (day: number) => number) => {
    const told = visitMinutes(
      line,
      seen.map((one) => one.chores),
      visits,
      groupOf,
    );
    return (group: number): Pick<VisitChores, 'minutes'> =>
      told === null ? {} : { minutes: told.get(group)! };
  };
  const ofVisit = takenBy((day) => day);
  const ofWeek = takenBy(weekOf);
  const crops = line.crops.map((_, crop): AnyBatch => ({ name: null, crop, sown: 0, stood: false }));
  const names = namesOf(batches.all, counted);
  const iso = (day: number): string => isoOfDay(plan.start, day);
  return success({
    title: plan.title,
    id: streamKey(['chores', plan.title]),
    from: iso(from),
    to: iso(from + days - 1),
    ...assumedOf(today, setup.openings),
    revision: rows.length + from,
    futures,
    seed: setup.seed,
    missed_sowings: madeUpFor(line, comingSowings(line, setup.openings.stand?.day ?? -1, from, from + days)),
    lost_to_absence: lost,
    visits: visits.map((day) => {
      const then = counted.filter((one) => one.day === day);
      return { date: iso(day), chores: choresOf(line, then, batches.all, names), ...ofVisit(day) };
    }),
    weeks: [...groupedBy(visits, (day) => iso(weekOf(day)))].map(([start, mine]) => {
      const monday = weekOf(mine[0]);
      const then = weekly.filter((one) => one.day === monday);
      const unnamed = crops.map(() => null);
      return {
        start,
        visits: mine.length,
        chores: choresOf(line, then, crops, unnamed),
        ...ofWeek(monday),
      };
    }),
    ...(line.physical?.work && { assumes: [TAKES_CAUTION] }),
  });
}

/** The chores of one visit, in the order in which it goes. */
function choresOf(
  plan: Plan,
  counted: readonly CountedChore[],
  batches: readonly AnyBatch[],
  names: readonly (string | null)[],
): Chore[] {
  const told = counted.filter(({ count }) => count.mean >= LEAST);
  const place = ({ kind, stage }: CountedChore): number =>
    // From the last stage back, as plants are moved.
    CHORES.indexOf(kind) * plan.stages.length + (route.last(plan) - stage);
  return told
    .filter(({ batch }) => batch === null)
    .sort((a, b) => place(a) - place(b))
    .map((chore) => ({
      action: chore.kind,
      stage: plan.stages[chore.stage]!.name,
      from: chore.kind === 'move' ? plan.stages[route.before(plan, chore.stage)]!.name : null,
      count: chore.count,
      batches: told
        .filter(({ kind, stage, batch }) => kind === chore.kind && stage === chore.stage && batch !== null)
        .sort((a, b) => batches[a.batch!]!.sown - batches[b.batch!]!.sown || a.batch! - b.batch!)
        .map(({ batch, count }) => ({
          batch: names[batch!]!,
          crop: plan.crops[batches[batch!]!.crop]!.name,
          count,
        })),
    }));
}

/** Names of the batches: as in the log, or the next free numbers (B1, B2, ...). */
function namesOf(batches: readonly AnyBatch[], counted: readonly CountedChore[]): (string | null)[] {
  const numbers = batches.map(({ name }) => Number(/^B(\d{1,9})$/i.exec(name ?? '')?.[1] ?? 0));
  let next = largest(numbers, 0);
  const names = batches.map(({ name }) => name);
  const sown = new Set(
    counted.filter(({ kind, chance }) => kind === 'sow' && chance >= NAMED).map(({ batch }) => batch),
  );
  const coming = batches
    .map((batch, i) => ({ ...batch, i }))
    .filter(({ name, i }) => name === null && sown.has(i))
    .sort((a, b) => a.sown - b.sown || a.crop - b.crop);
  for (const { i } of coming) names[i] = `B${++next}`;
  return names;
}
