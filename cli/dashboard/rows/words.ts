/** Words that several parts of the dashboard use. */

import type { State as HoleState } from '../../../sim/models/ledger.js';
import type { Change } from '../../../sim/seasons/changes.js';
import type { Limits } from '../../../sim/study/limits.js';
import { listed } from '../../views/format.js';
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

/** `1 hole`, `3 holes`. */
export function heldBackBy(limits: Limits): string {
  switch (limits.by) {
    case 'stage':
      return listed(limits.stages);
    case 'sowing':
      return 'what is sown';
    case 'visits':
      return 'the visits';
    case 'want':
      return 'nothing: all wanted is picked';
    case 'nothing':
      return 'nothing that was tried';
  }
}

export function changeWords(change: Change): string {
  switch (change.kind) {
    case 'channel':
      return `1 channel more of ${change.stage}`;
    case 'seeds':
      return `${change.percent} % more seeds`;
    case 'visits':
      return 'a visit every day';
  }
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
