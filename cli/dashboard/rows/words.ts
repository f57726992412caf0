/** Words that several parts of the dashboard use. */

import type { State as HoleState } from '../../../sim/models/ledger.js';
import type { State } from '../state/state.js';

/** What stands in a hole, in few words. */
export const HOLE_WORDS: Readonly<Record<HoleState, string>> = {
  growing: 'growing',
  dead: 'dead, not cleared',
  unattended: 'ready, not seen yet',
  blocked: 'ready, no hole free',
  held: 'ready, not wanted',
  cleaning: 'being cleaned',
  filling: 'empty, line filling',
  untended: 'empty, ready ones wait',
  unsupplied: 'empty, nothing ready',
};

/** The same of a logged season: a log tells what stood where, not what was ready. */
const LOGGED_WORDS: Readonly<Partial<Record<HoleState, string>>> = {
  growing: 'taken',
  unsupplied: 'empty',
};

/** @param real whether the season on the screen is that of a log */
export function holeWords(state: HoleState, real: boolean): string {
  return (real ? LOGGED_WORDS[state] : undefined) ?? HOLE_WORDS[state];
}

/** Which season is on the screen. */
export function seasonWords({ real, season }: Pick<State, 'real' | 'season'>): string {
  return real ? 'the season of the log' : `simulated season ${season + 1}`;
}

/** Whether the film runs, and how. */
export function motionWords({ playing, stride }: Pick<State, 'playing' | 'stride'>): string {
  const pace = stride === 7 ? ' by weeks' : '';
  if (playing === 0) return `at rest${pace === '' ? '' : `,${pace}`}`;
  return `running${playing < 0 ? ' backward' : ''}${pace}`;
}
