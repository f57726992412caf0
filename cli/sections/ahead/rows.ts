/** What lies ahead as rows: one for each figure and date. */

import type { AheadResult } from '../../../sim/season/ahead/ahead.js';
import type { Range } from '../../../sim/season/ahead/range.js';
import type { Rows } from '../section.js';

const HEADER = [
  'figure',
  'date',
  'until',
  'stage',
  'batch',
  'crop',
  'mean',
  'se',
  'p10',
  'p50',
  'p90',
  'chance',
];

/** Where a row belongs. */
interface Place {
  readonly date: string;
  readonly until?: string;
  readonly stage?: string;
  readonly batch?: string | null;
  readonly crop?: string;
  readonly chance?: number;
}

export function aheadRows({ weeks, stages, no_room, overgrown, sowings, refills }: AheadResult): Rows {
  const rows: Rows[number][] = [HEADER];
  for (const { start, ready, picked, wanted } of weeks) {
    rows.push(row('ready', { date: start }, ready), row('picked', { date: start }, picked));
    if (wanted !== null) rows.push(row('wanted', { date: start }, wanted));
  }
  for (const { name, empty, first_empty } of stages) {
    empty.forEach((range, i) => {
      rows.push(row('empty holes', { date: weeks[i]!.start, stage: name }, range));
    });
    if (first_empty !== null) {
      const { chance, p10, p50, p90 } = first_empty;
      rows.push(row('more empty from', { date: p50, stage: name, chance }, null, [p10, p50, p90]));
    }
  }
  for (const { from, to, stage, batch, crop, chance, blocked, thrown_away } of no_room) {
    const place = { date: from, until: to, stage, batch, crop, chance };
    rows.push(row('blocked', place, blocked), row('thrown away', place, thrown_away));
  }
  for (const { from, to, stage, batch, crop, chance, thrown_away } of overgrown) {
    const place = { date: from, until: to, stage, batch, crop, chance };
    rows.push(row('thrown away, not for want of room', place, thrown_away));
  }
  for (const { date, crop, planned_seeds, advised_seeds } of sowings?.dates ?? []) {
    rows.push(row('planned seeds', { date, crop }, planned_seeds));
    rows.push(row('advised seeds', { date, crop }, advised_seeds));
  }
  for (const { date, crop, seeds } of refills) rows.push(row('refill seeds', { date, crop }, seeds));
  return rows;
}

/** @param dates of a figure that is a date, in place of quantiles */
function row(
  figure: string,
  { date, until, stage, batch, crop, chance }: Place,
  value: Range | number | null,
  dates: readonly string[] = [],
): Rows[number] {
  const range = typeof value === 'number' || value === null ? null : value;
  return [
    figure,
    date,
    until ?? null,
    stage ?? null,
    batch ?? null,
    crop ?? null,
    range?.mean ?? (typeof value === 'number' ? value : null),
    range?.se ?? null,
    range?.p10 ?? dates[0] ?? null,
    range?.p50 ?? dates[1] ?? null,
    range?.p90 ?? dates[2] ?? null,
    chance ?? null,
  ];
}
