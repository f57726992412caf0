/**
 * The picks of each week over the season: what is usual, what 8 of 10 seasons bring, what is wanted, what
 * came.
 */

import type { WeekResult } from '../../../sim/study/summary.js';
import { thousands } from '../../words/numbers.js';
import type { Meaning, Row, Signs, Span } from '../theme.js';
import { columnOfDay, type TimeAxis, weekOfColumn } from './axis.js';
import { apart, fittedRight, mark, RowWriter, rowWidth, span } from './rows.js';

export interface ChartInput {
  readonly axis: TimeAxis;
  /** Picks of each week over the seasons; null until they are known. */
  readonly weeks: readonly WeekResult[] | null;
  /** Heads wanted in a week; null if there is no want. */
  readonly want: number | null;
  /** What was picked in each week of the season on the screen, as far as it is to be shown. */
  readonly picked: readonly number[];
  /** How many of these weeks are over: what came in the others may become more. */
  readonly over: number;
  /** The most that is picked in any week of that season, also in those that are not shown yet. */
  readonly mostPicked: number;
  readonly day: number;
  /** Rows of the chart. */
  readonly height: number;
  /** Columns for the scale on its left. */
  readonly gutter: number;
  readonly signs: Signs;
}

/** What stands in one column of the weeks: heads a week. */
type Column = Pick<WeekResult, 'p10' | 'p50' | 'p90'>;

export function chartRows(input: ChartInput): Row[] {
  const { axis, weeks, want, height, gutter, signs } = input;
  const columns = weeks === null ? null : columnsOf(axis, weeks);
  const picked = pickedColumns(axis, input.picked);
  const top = niceTop(Math.max(want ?? 0, input.mostPicked, ...(columns ?? []).map(({ p90 }) => p90)));
  const place = (heads: number): Place => placeOf(heads, top, height);
  const wanted = want === null ? -1 : place(want).row;
  const today = columnOfDay(axis, input.day);
  return Array.from({ length: height }, (_, y) => {
    const row = height - 1 - y;
    const writer = new RowWriter();
    for (let x = 0; x < axis.columns; x++) {
      const stem = isStem(axis, x);
      const came = picked[x];
      const isToday = x === today;
      const column = columns?.[x];
      if (stem && came !== undefined && place(came).row === row) {
        writer.put(isOver(axis, x, input.over) ? signs.picked : signs.soFar, 'picked');
      } else if (column !== undefined && column.p50 > 0 && place(column.p50).row === row) {
        writer.put(signs.middle[place(column.p50).third], 'middle');
      } else if (stem && column !== undefined && isWithin(row, column, place)) {
        writer.put(isToday ? signs.todayInBand : signs.band, 'band');
      } else if (row === wanted) {
        writer.put(isToday ? signs.crossing : signs.want, 'want');
      } else if (isToday) {
        writer.put(signs.today, 'faint');
      } else {
        writer.put(' ');
      }
    }
    return [span(scale(row, height, top, gutter), 'faint'), ...writer.row()];
  });
}

/** Where so many heads a week stand: the row from below, and how high in it. */
interface Place {
  readonly row: number;
  readonly third: 0 | 1 | 2;
}

function placeOf(heads: number, top: number, height: number): Place {
  const thirds = Math.min(height * 3 - 1, Math.floor((heads / top) * height * 3));
  return { row: Math.floor(thirds / 3), third: (thirds % 3) as 0 | 1 | 2 };
}

function isWithin(row: number, { p10, p90 }: Column, place: (heads: number) => Place): boolean {
  return p90 > 0 && place(p10).row <= row && row <= place(p90).row;
}

/**
 * Where a week has several columns, its band and its mark stand in the middle one: week by week, like plants
 * in a row.
 */
function isStem(axis: TimeAxis, column: number): boolean {
  if (axis.daysPerColumn >= 7) return true;
  const perWeek = Math.round(7 / axis.daysPerColumn);
  return column % perWeek === Math.floor((perWeek - 1) / 2);
}

/** Weeks that share a column: the lowest and the highest of the band, the middle on average. */
function columnsOf(axis: TimeAxis, weeks: readonly WeekResult[]): Column[] {
  return Array.from({ length: axis.columns }, (_, x) => {
    const shared = weeksIn(axis, x, weeks);
    return {
      p10: Math.min(...shared.map(({ p10 }) => p10)),
      p50: shared.reduce((sum, { p50 }) => sum + p50, 0) / shared.length,
      p90: Math.max(...shared.map(({ p90 }) => p90)),
    };
  });
}

/**
 * What came in each column, as far as anything is known; weeks that share one on average. Nothing before the
 * first pick: that those weeks are empty is no news.
 */
function pickedColumns(axis: TimeAxis, picked: readonly number[]): (number | undefined)[] {
  const first = picked.findIndex((heads) => heads > 0);
  return Array.from({ length: axis.columns }, (_, x) => {
    const shared = weeksIn(axis, x, picked);
    const isEarly = first < 0 || weekOfColumn(axis, x) + axis.weeksPerColumn <= first;
    if (shared.length === 0 || isEarly) return undefined;
    return shared.reduce((sum, heads) => sum + heads, 0) / shared.length;
  });
}

/** Whether all weeks of a column, as far as the axis goes, are over. */
function isOver(axis: TimeAxis, column: number, over: number): boolean {
  return Math.min(weekOfColumn(axis, column) + axis.weeksPerColumn, axis.days / 7) <= over;
}

function weeksIn<T>(axis: TimeAxis, column: number, weeks: readonly T[]): T[] {
  const first = weekOfColumn(axis, column);
  return weeks.slice(first, first + axis.weeksPerColumn);
}

/** Heads at the top, half-way up (where there is room) and at the bottom, to the right. */
function scale(row: number, height: number, top: number, width: number): string {
  const half = height >= 5 ? Math.floor(height / 2) : -1;
  if (row === height - 1) return `${fittedRight(thousands(top), width - 1)} `;
  if (row === half) return `${fittedRight(thousands(top / 2), width - 1)} `;
  if (row === 0) return `${fittedRight('0', width - 1)} `;
  return ' '.repeat(width);
}

/** Tops of the scale within a decade; the even ones, so that half-way up is a whole number too. */
const TOPS = [1, 1.2, 1.6, 2, 2.4, 3, 4, 5, 6, 8, 10];

/** The top of a scale that holds so many heads a week: an even, round number. */
export function niceTop(most: number): number {
  if (!(most > 2)) return 2;
  const decade = 10 ** Math.floor(Math.log10(most));
  return TOPS.map((top) => Math.round(top * decade)).find((top) => top >= most && top % 2 === 0)!;
}

export interface LegendInput {
  readonly want: number | null;
  readonly real: boolean;
  readonly width: number;
  /** What is said of the figures beside the chart. */
  readonly said: string;
  /** They are of an earlier plan. */
  readonly isOld: boolean;
}

/** What the signs of the chart mean, as far as there is room; and what the figures beside it are. */
export function chartLegend(
  { weeksPerColumn }: TimeAxis,
  { want, real, width, said, isOld }: LegendInput,
  signs: Signs,
): Row {
  const shared =
    weeksPerColumn === 1
      ? ''
      : width < 100
        ? `, by ${weeksPerColumn} weeks`
        : `, ${weeksPerColumn} weeks a column`;
  const marks: [string, Meaning, string][] = [
    [signs.middle[1], 'middle', 'usual'],
    [signs.band, 'band', '8 of 10'],
    ...(want === null
      ? []
      : [[signs.want, 'want', `wanted ${thousands(want)}`] as [string, Meaning, string]]),
    [signs.picked, 'picked', real ? 'really picked' : 'this season'],
    [signs.soFar, 'picked', 'so far'],
  ];
  const row: Span[] = [span('Heads a week', 'strong'), span(shared, 'faint')];
  const rest = marks.map(([sign, meaning, words]) => [span('  '), ...mark(sign, meaning, words)]);
  const room = (pieces: readonly Span[]): number => width - said.length - 2 - rowWidth([...row, ...pieces]);
  const more = span(` ${signs.more}`, 'faint');
  while (rest.length > 0 && room([...rest[0]!, ...(room(rest.flat()) < 0 ? [more] : [])]) >= 0) {
    row.push(...rest.shift()!);
  }
  if (rest.length > 0 && room([more]) >= 0) row.push(more);
  return apart(row, said === '' ? [] : [span(said, isOld ? 'warn' : 'strong')], width);
}
