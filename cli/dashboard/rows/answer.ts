/** The answer as rows: its legend, the chart and the curves under it, the figures. */

import type { Film } from '../../../sim/study/film/film.js';
import type { State } from '../state/state.js';
import type { Row, Signs } from '../theme.js';
import { dateScale, type TimeAxis, timeAxis } from './axis.js';
import { chartLegend, chartRows } from './chart.js';
import { isOut, runningWords } from './difference.js';
import { figureRows, REMEDIES_TITLE } from './figures.js';
import { factsOf, weeklyPicks, weeksOver } from './film.js';
import { idleRows, idleTitle } from './idle.js';
import type { Layout } from './layout.js';
import type { LineAnswer } from './line.js';
import { fitted, span } from './rows.js';

export type AnswerState = Pick<State, 'scenario' | 'figures' | 'asked' | 'answered' | 'day' | 'real'>;

export interface AnswerInput {
  readonly state: AnswerState;
  readonly film: Film | null;
  /** Picks of each week as they were logged; null without a log. */
  readonly realPicks: readonly number[] | null;
  readonly layout: Pick<Layout, 'width' | 'answer'>;
  readonly signs: Signs;
}

/** Columns between what is drawn and the figures. */
export const ANSWER_GAP = 2;

function axisOf({ state, layout }: Pick<AnswerInput, 'state' | 'layout'>): TimeAxis {
  const { width, answer } = layout;
  return timeAxis(state.scenario.weeks, width - answer.figures - ANSWER_GAP - answer.gutter);
}

/** Above both: what the signs of the chart mean, and what the figures are. */
export function answerLegend(input: Omit<AnswerInput, 'film' | 'realPicks'>): Row {
  const { state, layout, signs } = input;
  const { scenario, figures, real } = state;
  const isOld = figures !== null && isOut(state);
  const said = isOld ? 'of the plan before' : figures?.result.limits ? REMEDIES_TITLE : '';
  const legend = { want: wantAWeek(scenario), real, width: layout.width, said, isOld };
  return chartLegend(axisOf(input), legend, signs);
}

/** On the left: the picks over the weeks, the scale of dates, empty holes. */
export function drawnRows({ state, film, realPicks, layout, signs }: AnswerInput): Row[] {
  const { answer } = layout;
  const { scenario, figures, day, real } = state;
  const axis = axisOf({ state, layout });
  const logged = real ? realPicks : null;
  const always = scenario.visits === 'always';
  const picked = logged ?? (film === null ? [] : weeklyPicks(film, day, always));
  // Of a log all that was picked is shown, whatever the day.
  const over = film === null ? 0 : logged === null ? weeksOver(film, day, always) : Math.floor(film.days / 7);
  const mostPicked = Math.max(0, ...(logged ?? []), film === null ? 0 : factsOf(film).mostPicked);
  const stages = scenario.stages.length;
  const isPart = film !== null && answer.idle > 0 && answer.idle < stages;
  // The stages that stand empty most have a curve below; so many of them.
  const few = isPart ? `${answer.idle} of ${stages}` : '';
  return [
    ...chartRows({
      axis,
      weeks: figures?.result.weeks ?? null,
      want: wantAWeek(scenario),
      picked,
      over,
      mostPicked,
      day,
      height: answer.chart,
      gutter: answer.gutter,
      signs,
    }),
    [span(fitted(few, answer.gutter, signs.more), 'faint'), ...dateScale(axis, scenario.start, day, signs)],
    ...(answer.idleTitle === 1 ? [idleTitle()] : []),
    ...(film === null || answer.idle === 0
      ? []
      : idleRows({ film, axis, day, height: answer.idle, gutter: answer.gutter, signs })),
  ];
}

/** On the right: the figures. */
export function toldRows({ state, layout, signs }: Omit<AnswerInput, 'film' | 'realPicks'>): Row[] {
  const { answer } = layout;
  if (state.figures === null) return [[span(runningWords(state.scenario), 'faint')]];
  return figureRows(state.figures.result, answer.figures, belowLegend(answer), signs);
}

/** Rows of the answer without its legend. */
export function belowLegend({ chart, idleTitle, idle }: Layout['answer']): number {
  return chart + 1 + idleTitle + idle;
}

/** Heads wanted in a week; null if all that is ready is picked. */
export function wantAWeek({ want }: State['scenario']): number | null {
  return want === undefined ? null : want.heads * want.on.length;
}

/** What the figures say of the line, where they are of the plan on the screen. */
export function lineAnswer({
  figures,
  asked,
  answered,
  real,
}: Pick<State, 'figures' | 'asked' | 'answered' | 'real'>): LineAnswer | null {
  if (figures === null || isOut({ asked, answered })) return null;
  const { limits, stages } = figures.result;
  // Holes of a logged season stand empty for its own reasons.
  return { limits, idle: real ? [] : stages.map((stage) => stage.figures.idle?.mean ?? null) };
}
