/** Empty holes of each stage over the season: one small curve a stage, along the same weeks as the chart. */

import type { Film } from '../../../sim/study/film/film.js';
import { thousands } from '../../words/numbers.js';
import type { Row, Signs } from '../theme.js';
import { columnOfDay, type TimeAxis } from './axis.js';
import { emptyAt, frameOf } from './film.js';
import { fitted, fittedRight, piece, RowWriter } from './rows.js';

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
  const frame = frameOf(film, day);
  const today = columnOfDay(axis, day);
  return shown.map((s) => {
    const count = thousands(emptyAt(film, frame, s));
    const writer = new RowWriter();
    writer.put(fitted(film.stages[s]!.name, Math.max(0, gutter - 2 - count.length), signs.more));
    writer.put(fittedRight(count, count.length + 1), 'strong');
    writer.put(' ');
    curves[s]!.forEach((share, x) => {
      const sign = signs.steps[stepOf(share)]!;
      if (x === today) writer.put(sign === ' ' ? signs.today : sign, sign === ' ' ? 'faint' : 'middle');
      else writer.put(sign, 'unsupplied');
    });
    return writer.row();
  });
}

export function idleTitle(): Row {
  return [piece('Empty holes', 'strong'), piece(' of each stage, on the day and over the season', 'faint')];
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
