/** Empty holes of each stage over the season: one small curve a stage, along the same weeks as the chart. */

import type { Film } from '../../../sim/study/film/film.js';
import { padEnd } from '../../render/width.js';
import { thousands } from '../../words/numbers.js';
import type { Row, Signs } from '../theme.js';
import { columnOfDay, type TimeAxis } from './axis.js';
import { emptyAt, frameOf } from './film.js';
import { fittedRight, named, RowWriter, span } from './rows.js';

export interface IdleInput {
  readonly film: Film;
  readonly axis: TimeAxis;
  readonly day: number;
  /** Most rows; where there are more stages those that stand empty most are shown. */
  readonly height: number;
  readonly gutter: number;
  readonly signs: Signs;
}

export function idleRows({ film, axis, day, height, gutter, signs }: IdleInput): Row[] {
  const curves = curvesOf(film, axis);
  const shown = curves
    .map((curve, s) => ({ s, empty: curve.reduce((sum, share) => sum + share, 0) }))
    .sort((a, b) => b.empty - a.empty)
    .slice(0, height)
    .map(({ s }) => s)
    .sort((a, b) => a - b);
  const names = film.stages.map(({ name }) => name);
  const counts = Math.max(...film.stages.map(({ holes }) => thousands(holes).length));
  const room = Math.max(0, gutter - 2 - counts);
  const frame = frameOf(film, day);
  const today = columnOfDay(axis, day);
  return shown.map((s) => {
    const count = thousands(emptyAt(film, frame, s));
    const writer = new RowWriter();
    writer.put(padEnd(named(film.stages[s]!.name, room, signs.more, names), room));
    writer.put(fittedRight(count, gutter - 1 - room), 'strong');
    writer.put(' ');
    curves[s]!.forEach((share, x) => {
      // How many stand empty that day is told before the curve.
      if (x === today) writer.put(signs.today, 'strong');
      else writer.put(signs.steps[stepOf(share)]!, 'unsupplied');
    });
    return writer.row();
  });
}

export function idleTitle(): Row {
  return [span('Empty holes', 'strong'), span(' of each stage, on the day and over the season', 'faint')];
}

/** Eighths; a share that is not 0 never looks like 0. */
function stepOf(share: number): number {
  return share === 0 ? 0 : Math.max(1, Math.round(share * 8));
}

interface Curves {
  readonly axis: TimeAxis;
  readonly shares: readonly (readonly number[])[];
}

const known = new WeakMap<Film, Curves>();

/** Mean share of the holes of each stage that stand empty in each column; kept as long as the film. */
function curvesOf(film: Film, axis: TimeAxis): Curves['shares'] {
  const before = known.get(film);
  if (before !== undefined && before.axis.columns === axis.columns && before.axis.days === axis.days)
    return before.shares;
  const shares = film.stages.map(({ holes }, s) => {
    const sums = new Float64Array(axis.columns);
    const days = new Float64Array(axis.columns);
    for (let day = 0; day < film.days; day++) {
      const column = columnOfDay(axis, day);
      sums[column]! += emptyAt(film, day, s) / holes;
      days[column]!++;
    }
    return Array.from(sums, (sum, x) => (days[x] === 0 ? 0 : sum / days[x]!));
  });
  known.set(film, { axis, shares });
  return shares;
}
