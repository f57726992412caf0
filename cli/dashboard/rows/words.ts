/** Words that several parts of the dashboard use. */

import type { HoleState } from '../../../sim/models/ledger.js';
import { STATE_WORDS } from '../../words/states.js';
import type { State } from '../state/state.js';

/** What stands in a hole of a logged season: a log tells what stood where, not what was ready. */
const LOGGED_WORDS: Readonly<Partial<Record<HoleState, string>>> = {
  growing: 'taken',
  unsupplied: 'empty',
};

/** What stands in a hole, in few words. @param real whether the season on the screen is that of a log */
export function holeWords(state: HoleState, real: boolean): string {
  return (real ? LOGGED_WORDS[state] : undefined) ?? STATE_WORDS[state].short;
}

/** Which season is on the screen. */
export function seasonWords({ real, season }: Pick<State, 'real' | 'season'>): string {
  return real ? 'the season of the log' : `simulated season ${season + 1}`;
}

/** The same where there is little room. */
export function seasonShort({ real, season }: Pick<State, 'real' | 'season'>): string {
  return real ? 'the log' : `season ${season + 1}`;
}

/** Whether the film runs, and how. */
export function motionWords({ playing, stride }: Pick<State, 'playing' | 'stride'>): string {
  const pace = stride === 7 ? ' by weeks' : '';
  if (playing === 0) return `at rest${pace === '' ? '' : `,${pace}`}`;
  return `running${playing < 0 ? ' backward' : ''}${pace}`;
}
