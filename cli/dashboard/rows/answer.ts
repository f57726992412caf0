/** The answer as rows: the chart and the curves under it on the left, the figures on the right. */

import type { Film } from '../../../sim/study/film/film.js';
import type { State } from '../state/state.js';
import type { Row, Signs } from '../theme.js';
import { dateScale, timeAxis } from './axis.js';
import { chartLegend, chartRows } from './chart.js';
import { isOut, runningWords } from './difference.js';
import { figureRows, REMEDIES_TITLE } from './figures.js';
import { factsOf, weeklyPicks, weeksOver } from './film.js';
import { idleRows, idleTitle } from './idle.js';
import type { Layout } from './layout.js';
import type { LineAnswer } from './line.js';
import { fitted, halves, span } from './rows.js';

export type AnswerState = Pick<State, 'scenario' | 'figures' | 'asked' | 'answered' | 'day' | 'real'>;

export interface AnswerInput {
  readonly state: AnswerState;
  readonly film: Film | null;
  /** Picks of each week as they were logged; null without a log. */
  readonly realPicks: readonly number[] | null;
  readonly layout: Pick<Layout, 'width' | 'answer'>;
  readonly signs: Signs;
}

const GAP = 2;

export function answerRows({ state, film, realPicks, layout, signs }: AnswerInput): Row[] {
  const { width, answer } = layout;
  const { scenario, figures, day, real } = state;
  const left = width - answer.figures - GAP;
  const axis = timeAxis(scenario.weeks, left - answer.gutter);
  const want = wantAWeek(scenario);
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
  const indent = span(fitted(few, answer.gutter, signs.more), 'faint');
  const height = answer.chart + 1 + answer.idleTitle + answer.idle;
  const drawn: Row[] = [
    ...chartRows({
      axis,
      weeks: figures?.result.weeks ?? null,
      want,
      picked,
      over,
      mostPicked,
      day,
      height: answer.chart,
      gutter: answer.gutter,
      signs,
    }),
    [indent, ...dateScale(axis, scenario.start, day, signs)],
    ...(answer.idleTitle === 1 ? [idleTitle()] : []),
    ...(film === null || answer.idle === 0
      ? []
      : idleRows({ film, axis, day, height: answer.idle, gutter: answer.gutter, signs })),
  ];
  const told: Row[] =
    figures === null
      ? [[span(runningWords(scenario), 'faint')]]
      : figureRows(figures.result, answer.figures, height, signs);
  const rows = halves([drawn, told], width, answer.figures, GAP);
  const isOld = figures !== null && isOut(state);
  const said = isOld ? 'of the plan before' : figures?.result.limits ? REMEDIES_TITLE : '';
  return [chartLegend(axis, { want, real, width, said, isOld }, signs), ...rows.slice(0, height)];
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
