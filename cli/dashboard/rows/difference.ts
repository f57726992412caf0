/** What the last change to the plan brought, with its interval. */

import { toPlan } from '../../../sim/scenario/plan.js';
import type { Scenario } from '../../../sim/scenario/schema.js';
import { defaultSeasons } from '../../../sim/seasons/how-many.js';
import type { Difference } from '../../../sim/study/compare.js';
import type { Figure } from '../../../sim/study/figures/figure.js';
import { figureNamed } from '../../../sim/study/figures/figures.js';
import { wrapped } from '../../render/wrap.js';
import { gainFormOf, VERDICT_WORDS } from '../../words/figures.js';
import { figureText, intervalText } from '../../words/numbers.js';
import { planBefore } from '../state/history.js';
import type { State } from '../state/state.js';
import type { Row } from '../theme.js';
import { COMPARED } from '../thread/messages.js';
import { rowWidth, span } from './rows.js';

export type DifferenceState = Pick<State, 'scenario' | 'past' | 'figures' | 'asked' | 'answered'>;

/** A figure and how it differs. */
export interface FigureDifference {
  readonly figure: Figure;
  /** null where one of the two plans has no such figure. */
  readonly difference: Difference | null;
}

/** The differences to be shown; null where there is none to show yet, with the reason. */
export function differencesOf(
  state: DifferenceState,
): { readonly found: readonly FigureDifference[] } | { readonly why: string } {
  if (isOut(state)) return { why: runningWords(state.scenario) };
  const differences = state.figures?.differences ?? null;
  if (differences === null && planBefore(state) !== null) return { why: runningWords(state.scenario) };
  if (differences === null) {
    return { why: 'What a change to the plan brings stands here.' };
  }
  return { found: COMPARED.map((name) => ({ figure: figureNamed(name), difference: differences[name] })) };
}

/** Stands before figures of the plan that was on the screen before this one. */
export const PLAN_BEFORE = 'the plan before: ';

/** Figures of the plan on the screen are still being worked out. */
export function isOut({ asked, answered }: Pick<State, 'asked' | 'answered'>): boolean {
  return answered < asked;
}

/** Seasons that are run of a plan: asked with every frame until they are. */
const counts = new WeakMap<Scenario, number>();

/** Seasons that a study of the plan takes. */
export function seasonsOf(scenario: Scenario): number {
  const seasons = counts.get(scenario) ?? defaultSeasons(toPlan(scenario));
  counts.set(scenario, seasons);
  return seasons;
}

/** @param scenario whose seasons are being run */
export function runningWords(scenario: Scenario): string {
  return `running ${seasonsOf(scenario)} seasons`;
}

/** `+1.3 (+1.0 to +1.6)`: the difference and its 95 % interval. */
export function amountText(figure: Figure, difference: Difference): string {
  const { mean, low, high } = difference;
  const form = gainFormOf(difference, figure);
  const amount = figureText(mean, form);
  return low === null || high === null ? amount : `${amount} (${intervalText({ low, high }, form)})`;
}

export function differenceRows(state: DifferenceState, width: number, height: number): Row[] {
  const told = differencesOf(state);
  if ('why' in told) {
    const lines = wrapped(told.why, width);
    return lines.map((line) => [span(line, 'faint')]).slice(0, height);
  }
  const words = told.found.map(({ figure, difference }): Row => {
    if (difference === null) return [span(`${figure.short} `), span('cannot be told', 'faint')];
    const { verdict } = difference;
    return [
      span(`${figure.short} `),
      span(amountText(figure, difference), 'strong'),
      span(` ${VERDICT_WORDS[verdict]}`),
    ];
  });
  if (height === 1) return [inOneRow(words, width)];
  const title: Row = [
    span('Against the plan before', 'strong'),
    span(width < 48 ? ', 95 %' : ', with 95 % intervals', 'faint'),
  ];
  return height > words.length ? [title, ...words] : words.slice(0, height);
}

/** As many as have room beside each other, and what they are taken against where that has room too. */
function inOneRow(words: readonly Row[], width: number): Row {
  const title = span('Against before: ', 'faint');
  const all = words.flatMap((row, i) => (i === 0 ? row : [span('   '), ...row]));
  const [first] = words;
  const rows = [[title, ...all], all, [title, ...first!]];
  return rows.find((row) => rowWidth(row) <= width) ?? first!;
}
