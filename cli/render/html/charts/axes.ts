/** Axes as all charts have them. */

import * as Plot from '@observablehq/plot';
import { MONTHS, shortDate } from '../../../words/dates.js';

const DAY = 86_400_000;

/** A date as a moment, so that it lies at its place on an axis of time. */
export function momentOf(iso: string, days = 0): Date {
  return new Date(Date.parse(`${iso}T00:00:00Z`) + days * DAY);
}

/** The date of a moment, ISO 8601. */
export function isoOfMoment(moment: Date): string {
  return moment.toISOString().slice(0, 10);
}

/** Marks below a drawing for so many days: weeks of a short season, months of a longer one. */
export function timeAxis(start: string, days: number, width: number): Plot.Markish {
  const first = momentOf(start);
  const end = momentOf(start, days);
  const months: Date[] = [];
  const from = first.getUTCFullYear() * 12 + first.getUTCMonth();
  for (let month = from; ; month++) {
    const moment = new Date(Date.UTC(Math.floor(month / 12), month % 12, 1));
    if (moment >= end) break;
    if (moment >= first) months.push(moment);
  }
  // The beginning is told where the first month does not begin right behind it.
  const spaced = (months[0] ?? end).getTime() - first.getTime() > 0.12 * (end.getTime() - first.getTime());
  const ticks = months.length > 1 ? [...(spaced ? [first] : []), ...months] : weeksFrom(start, days, width);
  return Plot.axisX(ticks, {
    tickFormat: (moment: Date) => labelOf(moment, months.length > 1, width),
    label: null,
    tickSize: 4,
    tickPadding: 4,
    textAnchor: 'start',
    dx: -1,
  });
}

function weeksFrom(start: string, days: number, width: number): Date[] {
  const step = 7 * Math.max(1, Math.ceil(days / 7 / (width / 70)));
  return Array.from({ length: Math.ceil(days / step) }, (_, i) => momentOf(start, i * step));
}

function labelOf(moment: Date, byMonths: boolean, width: number): string {
  const iso = isoOfMoment(moment);
  if (!byMonths || moment.getUTCDate() !== 1) return shortDate(iso);
  const month = MONTHS[moment.getUTCMonth()]!;
  return moment.getUTCMonth() === 0 && width > 400 ? `${month} ${moment.getUTCFullYear()}` : month;
}

/** A scale of amounts below a drawing of so many px. */
export function amountScale(label: string, width: number): Plot.ScaleOptions {
  return { label, labelAnchor: 'center', labelArrow: 'none', ticks: width / 90 };
}

/** Faint lines up at the marks of that scale. */
export function amounts(width: number): Plot.Markish {
  return Plot.gridX({ stroke: 'var(--faint)', strokeOpacity: 1, ticks: width / 90 });
}

/** Faint lines across at the marks of the upright axis. */
export function levels(): Plot.Markish {
  return Plot.gridY({ stroke: 'var(--faint)', strokeOpacity: 1 });
}
