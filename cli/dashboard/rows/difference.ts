/** What the last change to the plan brought, with its interval. */

import { type Figure, figureNamed } from '../../../sim/study/figures.js';
import { wrapped } from '../../render/wrap.js';
import { gainFormOf, VERDICT_WORDS } from '../../words/figures.js';
import { figureText, intervalText } from '../../words/numbers.js';
import type { State } from '../state/state.js';
import type { Row } from '../theme.js';
import { COMPARED, type Difference, SEASONS } from '../thread/messages.js';
import { fitted, span } from './rows.js';

export type DifferenceState = Pick<State, 'figures' | 'asked' | 'answered'>;

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
  if (isOut(state)) return { why: runningWords() };
  const differences = state.figures?.differences ?? null;
  if (differences === null) {
    return { why: 'Change the plan with + and -: what that brings will stand here.' };
  }
  return { found: COMPARED.map((name) => ({ figure: figureNamed(name), difference: differences[name] })) };
}

/** Figures of the plan on the screen are still being worked out. */
export function isOut({ asked, answered }: Pick<State, 'asked' | 'answered'>): boolean {
  return answered < asked;
}

export function runningWords(): string {
  return `running ${SEASONS} seasons`;
}

/** `+1.3 (+1.0 to +1.6)`: the difference and its 95 % interval. */
export function amountText(figure: Figure, difference: Difference): string {
  const { mean, low, high } = difference;
  const form = gainFormOf(difference, figure);
  const amount = figureText(mean, form);
  return low === null || high === null ? amount : `${amount} (${intervalText({ low, high }, form)})`;
}

export function differenceRows(state: DifferenceState, width: number, height: number): Row[] {
  // That seasons are being run stands in the heading of the plan.
  if (isOut(state)) return [];
  const told = differencesOf(state);
  if ('why' in told) {
    const lines = wrapped(told.why, width);
    return lines.map((line) => [span(line, 'faint')]).slice(0, height);
  }
  const narrow = width < 48;
  const rows = told.found.map(({ figure, difference }): Row => {
    const name = span(narrow ? fitted(figure.column, 9) : fitted(figure.short, 14));
    if (difference === null) return [name, span('cannot be told', 'faint')];
    return [
      name,
      span(amountText(figure, difference), 'strong'),
      span(` ${VERDICT_WORDS[difference.verdict]}`),
    ];
  });
  const title: Row = [
    span('Against the plan before', 'strong'),
    span(narrow ? ', 95 %' : ', with 95 % intervals', 'faint'),
  ];
  return height > rows.length ? [title, ...rows] : rows.slice(0, height);
}
