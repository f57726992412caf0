/** How the screen is dealt to its parts, by its size and by what there is to show; never by the day. */

import type { Scenario } from '../../../sim/scenario/schema.js';
import type { Film } from '../../../sim/study/film/film.js';
import { widthOf } from '../../render/width.js';
import { thousands } from '../../words/numbers.js';
import type { State } from '../state/state.js';
import type { Signs } from '../theme.js';
import { KEPT_WIDTH } from './kept.js';
import { knobHeight } from './knobs.js';
import { legendRows } from './line.js';
import { type LineLayout, lineLayout } from './line-layout.js';

/** The smallest screen that anything is drawn on. */
export const LEAST = { columns: 60, rows: 16 } as const;

/** Rows of the chart, at least and at most, and of what goes with it: its legend and the scale of dates. */
const CHART = 3;
const HIGHEST_CHART = 28;
const FRAME = 2;
/** Rows of the line below the names of the stages, at least. */
const BODY = 3;
/** Share of their common room that the line may take from the chart. */
const LINE_SHARE = 0.55;

/**
 * A low screen has room for the least only, a usual one is 24 rows, a high one has room for headings and
 * blanks.
 */
type Height = 'low' | 'usual' | 'high';
/** Rows of the knobs, at most. */
const KNOBS: Readonly<Record<Height, number>> = { low: 1, usual: 2, high: 4 };
/**
 * Rows of the differences to the plan before; of the causes of empty holes, where the season of a log is
 * shown.
 */
const DIFFERENCES: Readonly<Record<Height, number>> = { low: 1, usual: 2, high: 3 };
const CAUSES: Readonly<Record<Height, number>> = { low: 1, usual: 3, high: 6 };

/** All sizes in columns and rows. */
export interface Layout {
  /** Columns of every part. */
  readonly width: number;
  /** Columns before the first and behind the last. */
  readonly margin: number;
  readonly head: 1 | 2;
  /** Empty rows between the parts. */
  readonly between: 0 | 1;
  readonly line: { readonly height: number; readonly layout: LineLayout | null; readonly legend: number };
  readonly answer: {
    readonly chart: number;
    /** 1 if the curves have a heading. */
    readonly idleTitle: 0 | 1;
    readonly idle: number;
    readonly gutter: number;
    /** Columns of the figures on the right; the chart and the curves take the rest. */
    readonly figures: number;
  };
  readonly plan: {
    readonly height: number;
    readonly knobs: number;
    readonly differences: number;
    /** Columns of the knobs; the rest is for kept plans. */
    readonly left: number;
  };
}

export type LayoutState = Pick<State, 'columns' | 'rows' | 'scenario' | 'kept' | 'real'>;

export function isTooSmall({ columns, rows }: Pick<State, 'columns' | 'rows'>): boolean {
  return columns < LEAST.columns || rows < LEAST.rows;
}

export function layoutOf(state: LayoutState, film: Film | null, signs: Signs): Layout {
  const { columns, rows } = state;
  // The last row stays free: a frame as high as the screen makes terminals scroll.
  const height = rows - 1;
  const margin = columns >= 100 ? 2 : 1;
  const width = columns - 2 * margin;
  const head = height >= 20 ? 2 : 1;
  const between = height >= 32 ? 1 : 0;
  // Without the first rows, the heading of the plan, the last row, and what lies between the five parts.
  const room = height - head - 1 - 1 - 4 * between;
  const plan = planLayout(state, width, room - FRAME - CHART - BODY - 1, signs);
  return {
    width,
    margin,
    head,
    between,
    plan,
    ...middleLayout(state, film, width, room - plan.height, signs),
  };
}

/** @param most rows that it may take, without its heading */
function planLayout(
  { rows, scenario, kept, real }: LayoutState,
  width: number,
  most: number,
  signs: Signs,
): Layout['plan'] {
  const height = heightOf(rows - 1);
  const beside = kept.length > 0 && width >= 76;
  const least = width - KEPT_WIDTH - 3;
  // Where there is plenty of room the table tells too what is different about each plan.
  const left = !beside ? width : width < 110 ? least : Math.max(least - 60, Math.floor(width / 2));
  const table = beside ? Math.min(kept.length + 2, most) : 0;
  // Beside the table there is room for a heading too.
  const differences = real ? CAUSES[height] : DIFFERENCES[height] + (beside && height === 'usual' ? 1 : 0);
  const mostKnobs = Math.max(KNOBS[height] + (beside && height === 'high' ? 2 : 0), table - differences);
  const knobs = knobHeight(scenario, left, mostKnobs, signs);
  return { height: Math.max(knobs + differences, table), knobs, differences, left };
}

/** The line and the answer, which share what the others leave. */
function middleLayout(
  { scenario, real }: LayoutState,
  film: Film | null,
  width: number,
  room: number,
  signs: Signs,
): Pick<Layout, 'line' | 'answer'> {
  const isRoomy = room >= 24;
  const stages = scenario.stages.length;
  const names = isRoomy ? 2 : 1;
  const idleTitle = isRoomy ? 1 : 0;
  const legend = film !== null && room >= 20 ? legendRows(film, real, width, 3, signs).length : 0;
  const spare = room - FRAME - CHART - names - BODY - legend - idleTitle;
  const idle = Math.max(0, Math.min(stages, spare, isRoomy ? 12 : 3));

  const shared = room - FRAME - idle - idleTitle - legend;
  const mostLine = Math.max(names + BODY, Math.min(shared - CHART, Math.round(shared * LINE_SHARE)));
  const layout = film === null ? null : lineLayout(film, width, mostLine, names);
  const line = layout === null ? Math.min(mostLine, stages + 1) : layout.height;
  return {
    line: { height: line, layout, legend },
    answer: {
      chart: Math.min(HIGHEST_CHART, shared - line),
      idleTitle,
      idle,
      gutter: gutterOf(scenario, width < 70 ? 7 : width < 100 ? 10 : 16),
      figures: width < 70 ? 30 : width < 100 ? 33 : width < 150 ? 40 : 46,
    },
  };
}

function heightOf(rows: number): Height {
  return rows < 19 ? 'low' : rows < 32 ? 'usual' : 'high';
}

/**
 * Columns before the chart and the curves: the name of a stage, at most `most` columns of it, and a count of
 * its holes.
 */
function gutterOf({ stages }: Scenario, most: number): number {
  const names = Math.max(...stages.map(({ name }) => widthOf(name)));
  const counts = Math.max(...stages.map(({ channels, holes }) => thousands(channels * holes).length));
  return Math.min(most, names) + 1 + counts + 1;
}
