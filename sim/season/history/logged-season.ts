/** A log in numbers, beside the plan that it belongs to: days for dates, places for names. */

import { dayFrom, dayNumber, isoOfDay } from '../../models/dates.js';
import { LONGEST_SEASON, WEEKS } from '../../models/limits.js';
import { type Plan, seasonDays } from '../../models/plan.js';
import { failure, type Result, success } from '../../models/result.js';
import { faultOfRows, type LogFault } from '../log/faults.js';
import type { LineAction, LogRow } from '../log/rows.js';
import { sinceOf } from '../log/since.js';
import { type LossKind, lossKind } from './losses.js';
import { dailyVisits } from './plan-days.js';

/** One sowing of one crop, or what stood of it when the log began to tell of it. */
export interface Batch {
  readonly name: string;
  /** Place of the crop in the plan. */
  readonly crop: number;
  /** Day of its sowing; of a batch that stood before, that of its `stand` rows [d from the start]. */
  readonly sown: number;
  /** 0 for a batch that stood before the log told of it. */
  readonly seeds: number;
}

/** When plants came in: some day from the one to the other [d from the start]; `from` -Infinity if nobody knows. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** A row of the log. */
export interface LoggedEvent {
  /** Whole days from the start [d]. */
  readonly day: number;
  readonly action: LineAction;
  /** Place of the batch; -1 for `clean`. */
  readonly batch: number;
  /** Place of the stage, as in the row: of a move the one moved into. */
  readonly stage: number;
  readonly channel: string | null;
  readonly count: number;
  readonly grams: number | null;
  /** How the plants were lost; null for every action but `lose`, and if the note does not say. */
  readonly loss: LossKind | null;
  /** Since when plants of a `stand` row stand there; null for every other action. */
  readonly since: Span | null;
  /** Of a loss of which no row tells: the day on which the plants came in, as their lot has it [d from the start]. */
  readonly lot?: number;
}

export interface LoggedSeason {
  /** The scenario's plan, or one inferred from the log. Its visits are on days. */
  readonly plan: Plan;
  /** Whether the plan is a scenario's. */
  readonly planned: boolean;
  /** What the log tells of: days 0 to `days` - 1 [d]. */
  readonly days: number;
  readonly batches: readonly Batch[];
  /** In the order of the log. */
  readonly events: readonly LoggedEvent[];
}

/**
 * Puts a log beside a plan.
 *
 * @param rows in the order of their dates, as `readLog` hands them out for the plan's stages
 * @param plan of the line; with `visits: always` it is taken as visited daily, since a log has whole dates
 * @param planned whether the plan is a scenario's
 * @param until day at which what is known ends [d]; if null: the end of a scenario's season if the log comes within a week
 * (or the longest gap between planned visits) of it, else the day after the last row
 * @returns faults if a row lies outside the season or its crop cannot be told
 */
export function loggedSeason(
  rows: readonly LogRow[],
  plan: Plan,
  planned: boolean,
  until: number | null = null,
): Result<LoggedSeason, LogFault> {
  const faults = [...outside(rows, plan), ...(planned ? cropless(rows, plan) : [])];
  if (faults.length > 0) return failure(faults);
  const stages = new Map(plan.stages.map(({ name }, s) => [name, s]));
  const crops = new Map(plan.crops.map(({ name }, c) => [name, c]));
  const places = new Map<string, number>();
  const batches: Batch[] = [];
  const events: LoggedEvent[] = [];
  const start = dayNumber(plan.start);
  let date = '';
  let day = 0;
  for (const row of rows) {
    // A log has many rows a date.
    if (row.date !== date) {
      date = row.date;
      day = dayNumber(date) - start;
    }
    if (row.action === 'sow' || (row.action === 'stand' && !places.has(row.batch))) {
      places.set(row.batch, batches.length);
      const seeds = row.action === 'sow' ? row.count : 0;
      batches.push({ name: row.batch, crop: crops.get(row.crop) ?? 0, sown: day, seeds });
    }
    const batch = row.action === 'clean' ? -1 : places.get(row.batch)!;
    const stage = stages.get(row.stage)!;
    const { action, channel, count, grams } = row;
    const loss = action === 'lose' ? lossKind(row.note) : null;
    const since = action === 'stand' ? spanOf(row.note, day, plan.start) : null;
    events.push({ day, action, batch, stage, channel, count, grams, loss, since });
  }
  const days = until ?? (planned ? endOf(day, plan) : day + 1);
  const visits: Plan['visits'] = { kind: 'days', days: dailyVisits(plan) };
  return success({ plan: { ...plan, visits }, planned, days, batches, events });
}

function spanOf(note: string | null, day: number, start: string): Span {
  const since = sinceOf(note);
  if (since === null) return { from: -Infinity, to: day };
  return { from: dayFrom(start, since.from), to: dayFrom(start, since.to) };
}

/** Shortest distance from the end of the season at which a log counts as broken off [d]. */
const NEAR_THE_END = 7;

function endOf(lastRow: number, plan: Plan): number {
  const days = dailyVisits(plan);
  let near = NEAR_THE_END;
  for (let i = 1; i < days.length; i++) near = Math.max(near, days[i]! - days[i - 1]!);
  return lastRow >= seasonDays(plan) - near ? seasonDays(plan) : lastRow + 1;
}

/** Rows before the season or behind it: one fault each, since all have the same remedy. */
function outside(rows: readonly LogRow[], plan: Plan): LogFault[] {
  const behind = rows.filter(({ date }) => date > lastDate(plan));
  const faults = rowsBefore(rows, plan);
  if (behind.length > 0) {
    const weeks = Math.floor(dayFrom(plan.start, behind.at(-1)!.date) / 7) + 1;
    faults.push(dateFault(behind, inSeason(plan), `Set weeks: ${weeks} in the scenario.`));
  }
  return faults;
}

/** Rows before the season. */
export function rowsBefore(rows: readonly LogRow[], plan: Plan): LogFault[] {
  // ISO dates are in order as texts.
  const before = rows.filter(({ date }) => date < plan.start);
  if (before.length === 0) return [];
  return [dateFault(before, inSeason(plan), `Set start: ${before[0]!.date} in the scenario.`)];
}

/** Rows so far behind the start that no season is so long: one of the years is a slip. */
export function rowsFarBehind(rows: readonly LogRow[], { start }: Plan): LogFault[] {
  const last = isoOfDay(start, LONGEST_SEASON);
  const behind = rows.filter(({ date }) => date > last);
  if (behind.length === 0) return [];
  const expected = `a date from ${start} to ${last}, within ${WEEKS.most} weeks of the start of the scenario`;
  const advice = `If it is the start that is of another year: set start: ${rows[0]!.date} in the scenario.`;
  return [dateFault(behind, expected, advice)];
}

function inSeason(plan: Plan): string {
  return `a date from ${plan.start} to ${lastDate(plan)}, the season of the scenario`;
}

function lastDate(plan: Plan): string {
  return isoOfDay(plan.start, seasonDays(plan) - 1);
}

/** What is wrong with the dates of rows. @param rows at least one */
export function dateFault(rows: readonly LogRow[], expected: string, advice: string): LogFault {
  return faultOfRows(rows, { column: 'date', found: rows[0]!.date, expected, advice });
}

/** Sowings without a crop, where the scenario has several. */
export function cropless(rows: readonly LogRow[], plan: Plan): LogFault[] {
  if (plan.crops.length < 2) return [];
  const nameless = rows.filter(({ action, crop }) => action === 'sow' && crop === '');
  if (nameless.length === 0) return [];
  const expected = `one of the crops ${plan.crops.map(({ name }) => name).join(', ')}`;
  const advice = 'Say on the row of the sowing which crop it is.';
  return [faultOfRows(nameless, { column: 'crop', found: 'nothing', expected, advice })];
}
