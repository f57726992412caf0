/** A plan for a log that has none, or one that lies elsewhere in time: it holds the rows, whenever they were. */

import { dayFrom } from '../../models/dates.js';
import { type CropPlan, type Growing, type Plan, seasonDays } from '../../models/plan.js';
import { withSpellsLater } from '../../models/spells.js';
import type { LogRow } from '../log/rows.js';
import { type LoggedSeason, loggedSeason } from './logged-season.js';
import { withDays } from './plan-days.js';

const UNKNOWN: Growing = {
  time: { shape: 'fixed', days: 1, spread: 0, times: [] },
  loss: 0,
  keeps: Number.POSITIVE_INFINITY,
};

/**
 * A plan of which nothing is known but what a log names: stages of one hole, crops that are never due.
 * @param rows at least one, in the order of their dates
 * @param stages names of the stages in their order
 */
export function barePlan(rows: readonly LogRow[], stages: readonly string[]): Plan {
  const start = rows[0]!.date;
  const days = [...new Set(rows.map(({ date }) => date))].map((date) => dayFrom(start, date));
  const crops = cropsSown(rows);
  return {
    title: 'Season log',
    start,
    weeks: Math.floor(days.at(-1)! / 7) + 1,
    seed: 1,
    visits: { kind: 'days', days },
    stages: stages.map((name) => ({
      name,
      channels: 1,
      holesPerChannel: 1,
      holeAreaCm2: null,
      cleanDays: 0,
    })),
    crops: (crops.length === 0 ? [''] : crops).map((name) => bareCrop(name, stages.length)),
    want: null,
  };
}

/**
 * A log beside a plan to which it need not belong wholly: the season is made to begin with the first row if that is
 * earlier, and to reach to the last; crops that the plan does not have come behind its own.
 * @param rows at least one, in the order of their dates, for the plan's stages
 */
export function seasonOfRows(rows: readonly LogRow[], plan: Plan): LoggedSeason {
  const from = rows[0]!.date;
  const shift = Math.max(0, dayFrom(from, plan.start));
  const start = shift > 0 ? from : plan.start;
  const last = dayFrom(start, rows.at(-1)!.date);
  const unknown = cropsSown(rows).filter((crop) => !plan.crops.some(({ name }) => name === crop));
  const later = withSpellsLater(
    withDays(plan, (days) => days.map((day) => day + shift)),
    shift,
  );
  const around: Plan = {
    ...later,
    start,
    weeks: Math.max(Math.ceil((seasonDays(plan) + shift) / 7), Math.floor(last / 7) + 1),
    crops: [...later.crops, ...unknown.map((name) => bareCrop(name, plan.stages.length))],
  };
  const framing = loggedSeason(rows, around, true, last + 1);
  if (!framing.ok) throw new Error('a log lies within the season that was made for it');
  return framing.value;
}

function cropsSown(rows: readonly LogRow[]): string[] {
  return [
    ...new Set(rows.filter(({ action }) => action === 'sow' || action === 'stand').map(({ crop }) => crop)),
  ];
}

function bareCrop(name: string, stages: number): CropPlan {
  return {
    name,
    germination: 1,
    sowing: { kind: 'due', days: [], seeds: 1 },
    cuts: 1,
    regrow: null,
    headG: null,
    stages: Array.from({ length: stages }, () => UNKNOWN),
  };
}
