/** What the last change to the plan brought, with its interval. */

import { wrapped } from '../../render/wrap.js';
import { gainFormOf, VERDICT_WORDS } from '../../words/figures.js';
import { figureText, intervalText } from '../../words/numbers.js';
import type { State } from '../state/state.js';
import type { Row } from '../theme.js';
import type { Difference } from '../thread/answer.js';
import { SEASONS } from '../thread/answer.js';
import { fitted, piece } from './rows.js';

export type DifferenceState = Pick<State, 'figures' | 'asked' | 'answered'>;

/** A line and its figures. */
export interface DifferenceWords {
  readonly label: string;
  /** The label where there is little room. */
  readonly short: string;
  /** null where one of the two plans has no such figure. */
  readonly difference: Difference | null;
}

/** The differences to be shown; null where there is none to show yet, with the reason. */
export function differencesOf(
  state: DifferenceState,
): { readonly words: readonly DifferenceWords[] } | { readonly why: string } {
  if (isOut(state)) return { why: runningWords() };
  const differences = state.figures?.differences ?? null;
  if (differences === null) {
    return { why: 'Change the plan with + and -: what that brings will stand here.' };
  }
  return {
    words: [
      { label: 'heads a week', short: 'a week', difference: differences.heads },
      { label: 'in a bad week', short: 'bad week', difference: differences.badWeek },
    ],
  };
}

/** Figures of the plan on the screen are still being worked out. */
export function isOut({ asked, answered }: Pick<State, 'asked' | 'answered'>): boolean {
  return answered < asked;
}

export function runningWords(): string {
  return `running ${SEASONS} seasons`;
}

/** `+1.3 (+1.0 to +1.6)`: the difference and its 95 % interval. */
export function amountText(difference: Difference): string {
  const { mean, low, high } = difference;
  const form = gainFormOf(difference);
  const amount = figureText(mean, form);
  return low === null || high === null ? amount : `${amount} (${intervalText({ low, high }, form)})`;
}

export function differenceRows(state: DifferenceState, width: number, height: number): Row[] {
  // That seasons are being run stands in the heading of the plan.
  if (isOut(state)) return [];
  const found = differencesOf(state);
  if ('why' in found) {
    const lines = wrapped(found.why, width);
    return lines.map((line) => [piece(line, 'faint')]).slice(0, height);
  }
  const narrow = width < 48;
  const rows = found.words.map(({ label, short, difference }): Row => {
    const name = piece(narrow ? fitted(short, 9) : fitted(label, 14));
    if (difference === null) return [name, piece('cannot be told', 'faint')];
    return [name, piece(amountText(difference), 'strong'), piece(` ${VERDICT_WORDS[difference.verdict]}`)];
  });
  const title: Row = [
    piece('Against the plan before', 'strong'),
    piece(narrow ? ', 95 %' : ', with 95 % intervals', 'faint'),
  ];
  return height > rows.length ? [title, ...rows] : rows.slice(0, height);
}
