/** How the screen is dealt to its parts, by its size and by what there is to show; never by the day. */

import type { Scenario } from '../../../sim/scenario/schema.js';
import type { Film } from '../../../sim/study/film/film.js';
import { MOST_HOLES } from '../../../sim/study/film/film-data.js';
import { widthOf } from '../../render/width.js';
import { thousands } from '../../words/numbers.js';
import type { State } from '../state/state.js';
import { HIGH_SCREEN, STRIP_ROWS } from '../state/strip.js';
import type { Signs } from '../theme.js';
import { knobHeight } from './knobs.js';
import { legendHeight } from './line.js';
import { type LineLayout, type LineShape, lineLayout } from './line-layout.js';
import { COLUMNS_HEIGHT, STRIP_FRAME } from './strip.js';
import { TAKES_HEIGHT, toldAHead } from './takes.js';

/** The smallest screen that anything is drawn on. */
export const SMALLEST_SCREEN = { columns: 60, rows: 16 } as const;

/** Rows of the chart, at most, and of what goes with it: its legend and the scale of dates. */
const HIGHEST_CHART = 28;
const FRAME = 2;
/** Share of their common room that the line may take from the chart. */
const LINE_SHARE = 0.55;

/**
 * A low screen has room for the least only, a usual one is 24 rows, a high one has room for headings and
 * blanks.
 */
type Height = 'low' | 'usual' | 'high';
/** Rows of the chart, and of the line below the names of the stages, at least. */
const CHART: Readonly<Record<Height, number>> = { low: 2, usual: 3, high: 3 };
const BODY: Readonly<Record<Height, number>> = { low: 2, usual: 3, high: 3 };
/** The same of the line where what a head takes stands on the screen too: on a low one a row of words alone. */
const BODY_BESIDE_TAKES: Readonly<Record<Height, number>> = { low: 0, usual: 2, high: 3 };
/** Rows of the knobs, at most. */
const KNOBS: Readonly<Record<Height, number>> = { low: 1, usual: 2, high: 4 };
/**
 * Rows of the differences to the plan before; of the causes of empty holes, where the season of a log is
 * shown.
 */
const DIFFERENCES: Readonly<Record<Height, number>> = { low: 1, usual: 1, high: 3 };
const CAUSES: Readonly<Record<Height, number>> = { low: 1, usual: 2, high: 6 };

/** All sizes in columns and rows. */
export interface Layout {
  /** Columns of every part. */
  readonly width: number;
  /** Columns before the first and behind the last. */
  readonly margin: number;
  readonly head: 1 | 2;
  /** Rows of what a head takes; 0: the scenario tells of none of it. */
  readonly takes: 0 | typeof TAKES_HEIGHT;
  /** Rows of the strip, and how many of them are plans; 0: they stand in columns. */
  readonly strip: { readonly height: number; readonly plans: number };
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
    /** 1 if it has a heading. */
    readonly title: 0 | 1;
    /** Rows below that. */
    readonly height: number;
    readonly knobs: number;
    readonly differences: number;
  };
}

export type LayoutState = Pick<State, 'columns' | 'rows' | 'opened' | 'scenario' | 'real'>;

export function isTooSmall({ columns, rows }: Pick<State, 'columns' | 'rows'>): boolean {
  return columns < SMALLEST_SCREEN.columns || rows < SMALLEST_SCREEN.rows;
}

export function layoutOf(state: LayoutState, film: Film | null, signs: Signs): Layout {
  const { columns, rows } = state;
  // The last row stays free: a frame as high as the screen makes terminals scroll.
  const height = rows - 1;
  const kind = heightOf(height);
  const margin = columns >= 100 ? 2 : 1;
  const width = columns - 2 * margin;
  const head = kind === 'high' ? 2 : 1;
  const strip = stripLayout(kind, rows);
  const between = kind === 'high' && rows >= HIGH_SCREEN - 4 ? 1 : 0;
  // It does not change with the plan: what can be changed there tells of none of it.
  const takes = toldAHead(state.opened).length === 0 ? 0 : TAKES_HEIGHT;
  const body = (takes === 0 ? BODY : BODY_BESIDE_TAKES)[kind];
  // Its heading tells least of what a screen of 24 rows has.
  const title = kind === 'low' || (takes > 0 && rows <= 24) ? 0 : 1;
  // Without the row of the day, the last row, and what lies between the five parts.
  const room = height - head - takes - strip.height - title - 1 - 1 - 4 * between;
  const plan = planLayout(state, kind, width, room - FRAME - CHART[kind] - body - 1, signs);
  return {
    width,
    margin,
    head,
    takes,
    strip,
    between,
    plan: { title, ...plan },
    ...middleLayout(state, film, { kind, body }, width, room - plan.height, signs),
  };
}

function stripLayout(kind: Height, rows: number): Layout['strip'] {
  if (kind === 'low') return { height: COLUMNS_HEIGHT, plans: 0 };
  const plans = rows >= HIGH_SCREEN ? STRIP_ROWS.high : STRIP_ROWS.usual;
  return { height: plans + STRIP_FRAME, plans };
}

/** @param most rows that it may take, without its heading */
function planLayout(
  { opened, real }: LayoutState,
  kind: Height,
  width: number,
  most: number,
  signs: Signs,
): Omit<Layout['plan'], 'title'> {
  const wished = real ? CAUSES[kind] : DIFFERENCES[kind];
  const differences = Math.max(1, Math.min(wished, most - 1));
  const knobs = knobHeight(opened, width, Math.max(1, Math.min(KNOBS[kind], most - differences)), signs);
  return { height: knobs + differences, knobs, differences };
}

/** The line and the answer, which share what the others leave. */
function middleLayout(
  { scenario, real }: LayoutState,
  film: Film | null,
  { kind, body }: { readonly kind: Height; readonly body: number },
  width: number,
  room: number,
  signs: Signs,
): Pick<Layout, 'line' | 'answer'> {
  const isRoomy = room >= 24;
  const stages = scenario.stages.length;
  const names = room >= 14 ? 2 : 1;
  const idleTitle = isRoomy ? 1 : 0;
  const mostLegend = isRoomy ? 3 : room >= 15 ? 1 : 0;
  const legend = legendHeight(real, width, mostLegend, signs);
  const leastChart = CHART[kind];
  const spare = room - FRAME - leastChart - names - body - legend - idleTitle;
  const idle = Math.max(0, Math.min(stages, spare, isRoomy ? 12 : 3));

  const shared = room - FRAME - idle - idleTitle - legend;
  const mostLine = Math.max(names + body, Math.min(shared - leastChart, Math.round(shared * LINE_SHARE)));
  const layout = lineLayout(film ?? shapeOf(scenario), width, mostLine, names);
  const line = layout === null ? Math.min(mostLine, stages + 1) : layout.height;
  const gutter = idle === 0 ? 7 : gutterOf(scenario, width < 70 ? 7 : width < 100 ? 10 : 16);
  return {
    line: { height: line, layout, legend },
    answer: {
      chart: Math.min(HIGHEST_CHART, shared - line),
      idleTitle,
      idle,
      gutter,
      figures: width < 70 ? 32 : width < 100 ? 38 : width < 150 ? 46 : 58,
    },
  };
}

/** The line whose film is being made, so that the rows are where they will be. */
function shapeOf({ stages }: Scenario): LineShape {
  const shape = stages.map(({ name, channels, holes }) => ({
    name,
    channels,
    holesPerChannel: holes,
    holes: channels * holes,
  }));
  const all = shape.reduce((sum, { holes }) => sum + holes, 0);
  return { stages: shape, holes: all > MOST_HOLES ? null : all };
}

function heightOf(rows: number): Height {
  return rows < 23 ? 'low' : rows < 32 ? 'usual' : 'high';
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
