/** The answer in one line: what a week brings, what a bad one brings, and what holds the line back. */

import { figureNamed } from '../../../sim/study/figures/figures.js';
import type { RunResult } from '../../../sim/study/summary.js';
import { widthOf } from '../../render/width.js';
import { formOf } from '../../words/figures.js';
import { heldBackAndMore, heldBackAndMost, heldBackBy } from '../../words/limits.js';
import { counted, figureText, percentText, plural, thousands } from '../../words/numbers.js';
import type { State } from '../state/state.js';
import type { Row, Signs, Span } from '../theme.js';
import { isOut, PLAN_BEFORE, runningWords, seasonsOf } from './difference.js';
import { apart, cut, named, rowWidth, span } from './rows.js';
import { motionWords, seasonWords } from './words.js';

export type HeadState = Pick<
  State,
  'scenario' | 'figures' | 'asked' | 'answered' | 'real' | 'season' | 'playing' | 'stride'
>;

export interface HeadInput {
  readonly state: HeadState;
  readonly width: number;
  /** 1: title and answer in one row. 2: the title and which season is shown, then the answer. */
  readonly height: 1 | 2;
  readonly signs: Signs;
}

/** Columns of a title that stands before the answer, at least. */
const SHORTEST_TITLE = 8;

export function headRows({ state, width, height, signs }: HeadInput): Row[] {
  const answer = answerRow(state, width, signs);
  const { title } = state.scenario;
  if (height === 2) {
    const season = seasonRow(state, signs);
    const room = Math.max(0, width - rowWidth(season) - 2);
    return [apart([span(named(title, room, signs.more), 'strong')], season, width), answer];
  }
  const room = width - rowWidth(answer) - 2;
  if (room < Math.min(SHORTEST_TITLE, widthOf(title))) {
    // Right behind the answer it would read as if that went on.
    return [room < 1 ? answer : apart(answer, [span(signs.more, 'faint')], width)];
  }
  return [apart(answer, [span(named(title, room, signs.more), 'faint')], width)];
}

/** Which season is on the screen, and whether it runs. */
export function seasonRow(state: HeadState, signs: Signs, words = seasonWords(state)): Row {
  return [
    span(`${words} ${signs.dot} `, 'faint'),
    span(motionWords(state), state.playing === 0 ? 'faint' : 'strong'),
  ];
}

/** The fullest answer that has room. */
function answerRow(state: HeadState, width: number, signs: Signs): Row {
  const { figures } = state;
  if (figures === null) return [span(runningWords(state.scenario), 'faint')];
  const old = isOut(state);
  const before: Span[] = old ? [span(PLAN_BEFORE, 'warn')] : [];
  const tail = seasonsTail(figures.result, old ? null : seasonsOf(state.scenario));
  const room = width - rowWidth([...before, ...tail]);
  // What brings more than what holds the line back goes before long words.
  const forms = [true, false].flatMap((more) =>
    [false, true].map((brief) => headline(figures.result, brief, more)),
  );
  const words =
    forms.find((form) => widthOf(form) <= room) ?? shortHeadline(figures.result, room, signs.more);
  return [...before, ...tail, span(words, old ? 'faint' : 'strong')];
}

/** `60 of 200 seasons: ` as long as not all seasons are run. */
function seasonsTail({ partial, seasons }: RunResult, all: number | null): Span[] {
  if (!partial) return [];
  return [
    span(
      `${all === null ? counted(seasons, 'season') : `${seasons} of ${counted(all, 'season')}`}: `,
      'warn',
    ),
  ];
}

/**
 * `19 heads in a usual week, 11 in a bad one; held back by nursery`.
 * @param more whether it also says what brings more than that
 */
export function headline(result: RunResult, brief: boolean, more = false): string {
  const { running, first_pick, limits, figures } = result;
  if (running === null) {
    return first_pick.p50 === null
      ? 'nothing is picked in this time, in most seasons'
      : 'the line does not run yet in this time';
  }
  const heads = (name: 'usual_week' | 'bad_week'): string =>
    figureText(figures[name]!.mean, formOf(figureNamed(name)));
  const usual = `${heads('usual_week')} ${plural(heads('usual_week'), 'head')}`;
  const missed =
    running.wanted && running.missing !== null
      ? `; ${percentText(Math.max(0, running.missing) / running.wanted)} of what is wanted is missed`
      : '';
  const heldBack = more ? (brief ? heldBackAndMost : heldBackAndMore) : heldBackBy;
  const held = limits === null ? '' : `; held back by ${heldBack(limits)}`;
  return brief
    ? `${usual} a week, ${heads('bad_week')} in a bad one${held}`
    : `${usual} in a usual week, ${heads('bad_week')} in a bad one${missed}${held}`;
}

/** The brief headline in so many columns: the names of stages are shortened as far as it takes and they can still be told. */
function shortHeadline(result: RunResult, room: number, more: string): string {
  const { limits } = result;
  if (limits?.by !== 'stage') return cut(headline(result, true), room, more);
  const { stages } = limits;
  const over = widthOf(headline(result, true)) - room;
  const longest = Math.max(...stages.map(widthOf));
  const each = Math.max(SHORTEST_TITLE, longest - Math.ceil(over / stages.length));
  const called = stages.map((name) => named(name, each, more, stages));
  return cut(headline({ ...result, limits: { ...limits, stages: called } }, true), room, more);
}

/** A whole number of per cent: a share that is not 0 never reads as 0, and one that is not all never as 100. */
export function wholePercent(share: number): string {
  if (share > 0 && share < 0.005) return '<1';
  if (share < 1 && share >= 0.995) return '>99';
  return thousands(Math.round(share * 100));
}
