/** The figures beside the chart: a usual week, a bad one, the first pick, what holds the line back. */

import type { Bottleneck, Effect, Trial } from '../../../sim/study/bottleneck.js';
import { type FigureName, figureNamed } from '../../../sim/study/figures.js';
import type { RunResult } from '../../../sim/study/summary.js';
import { wrapped } from '../../render/wrap.js';
import { dateText } from '../../words/dates.js';
import { formOf } from '../../words/figures.js';
import { changeText, heldBackBy } from '../../words/limits.js';
import {
  type Bounds,
  countText,
  decimalsFor,
  type Form,
  figureText,
  intervalText,
  orFewer,
  percentText,
  signed,
} from '../../words/numbers.js';
import type { Row, Signs } from '../theme.js';
import { cut, fitted, span } from './rows.js';

/** A figure: what it is, and its value in words. */
export interface FigureWords {
  readonly label: string;
  readonly value: string;
}

/** Columns of the labels. */
const LABEL = 14;

/**
 * The figures in the order of their weight, as many as `height` rows hold; a long value goes on in the next
 * row.
 */
export function figureRows(result: RunResult, width: number, height: number, signs: Signs): Row[] {
  const room = Math.max(1, width - LABEL - 1);
  return figureWords(result)
    .flatMap(({ label, value }) =>
      wrapped(value, room).map(
        (line, l): Row => [
          span(fitted(l === 0 ? label : '', LABEL, signs.more), 'faint'),
          span(' '),
          span(cut(line, room, signs.more), 'strong'),
        ],
      ),
    )
    .slice(0, height);
}

export function figureWords(result: RunResult): FigureWords[] {
  const { first_pick: first, running } = result;
  const words: FigureWords[] = [];
  const put = (label: string, value: string): void => {
    words.push({ label, value });
  };
  const putFigure = (name: FigureName<'whole'>, more: string): void => {
    const figure = figureNamed(name);
    put(figure.short, `${figureText(result.figures[name]!.mean, formOf(figure))}${more}`);
  };
  if (running !== null) {
    putFigure('usual_week', ' heads');
    putFigure('bad_week', orFewer(result.figures.bad_week!.mean));
    if (running.without_absence !== null)
      put(' nobody away', countText(running.without_absence.p10) + orFewer(running.without_absence.p10));
  } else put(figureNamed('usual_week').short, 'none in this time');
  put(figureNamed('first_pick_day').short, first.p50 === null ? 'never, mostly' : dateText(first.p50));
  if (running !== null) {
    put('held back by', result.limits === null ? 'being tried' : heldBackBy(result.limits));
    if (result.limits !== null) words.push(...trialWords(result.limits));
    putFigure('weeks_without_pick', ' of weeks');
    putFigure('heads_a_week', ' on average');
    if (result.limits !== null) words.push(riskWords(result.limits));
  }
  if (running?.wanted) put('wanted, missed', percentText(running.missing! / running.wanted));
  return words;
}

/** What the change that tells most brings, with its interval. */
export function trialWords(limits: Bottleneck): FigureWords[] {
  const trial = tellingTrial(limits);
  if (trial === null) return [];
  const form = gainForm(trial);
  const words = [
    { label: changeLabel(trial), value: `${figureText(trial.gain, form)} ${trialWhere(trial)}` },
    { label: ' 95 % interval', value: intervalText(trial, form) },
  ];
  if (limits.better.length > 0) {
    words.push({ label: 'better still', value: limits.better.map(changeText).join(', ') });
  }
  return words;
}

function riskWords({ risk }: Bottleneck): FigureWords {
  return { label: changeLabel(risk), value: `${figureText(risk.gain, gainForm(risk))} a week` };
}

function gainForm({ low, high }: Bounds): Form {
  return signed(decimalsFor(Math.max(Math.abs(low), Math.abs(high))));
}

function changeLabel({ change }: Effect): string {
  switch (change.kind) {
    case 'channel':
      return change.channels === 1 ? 'a channel more' : `+${change.channels} channels`;
    case 'seeds':
      return `seeds +${change.percent} %`;
    case 'visits':
      return 'a visit a day';
    case 'away':
      return 'nobody away';
    case 'growing':
      return `if ${change.percent} % slower`;
  }
}

function trialWhere({ change }: Trial): string {
  return change.kind === 'channel' ? `in ${change.stage}` : 'a week';
}

function tellingTrial({ by, stages, trials }: Bottleneck): Trial | null {
  const kind = by === 'sowing' ? 'seeds' : by === 'visits' || by === 'away' ? by : 'channel';
  const candidates = trials.filter(
    ({ change }) =>
      change.kind === kind && (by !== 'stage' || (change.kind === 'channel' && change.stage === stages[0])),
  );
  return candidates.sort((a, b) => b.elasticity.mean - a.elasticity.mean)[0] ?? null;
}
