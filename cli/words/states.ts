/** What each state of a hole means to somebody who looks at it. */

import type { HoleState } from '../../sim/models/ledger.js';

interface StateWords {
  readonly text: string;
  /** The same in few words. */
  readonly short: string;
  /** What a hole in this state holds. */
  readonly holds: string;
  /** What much of it calls for. */
  readonly callsFor: string;
}

export const STATE_WORDS: Readonly<Record<HoleState, StateWords>> = {
  growing: {
    text: 'growing',
    short: 'growing',
    holds: 'a plant that is not ready yet, or a seed whose time is not over',
    callsFor: 'nothing: that is what holes are for',
  },
  dead: {
    text: 'dead or failed, not cleared yet',
    short: 'dead, not cleared',
    holds: 'a dead plant or failed seed that no visit has cleared yet',
    callsFor: 'better seed, or visits nearer to each other',
  },
  unattended: {
    text: 'ready, nobody came by yet',
    short: 'ready, not seen yet',
    holds: 'a ready plant that no visit has seen',
    callsFor: 'visits nearer to each other',
  },
  blocked: {
    text: 'ready, no hole free further on',
    short: 'ready, no hole free',
    holds: 'a ready plant that a visit saw and could not move',
    callsFor: 'more holes in the next stage, or fewer seeds',
  },
  held: {
    text: 'ready, not wanted yet',
    short: 'ready, not wanted',
    holds: 'a ready plant of the last stage that a visit saw and did not pick',
    callsFor: 'fewer seeds, or more days on which heads are wanted',
  },
  cleaning: {
    text: 'being cleaned',
    short: 'being cleaned',
    holds: 'nothing: it is being cleaned, or is clean and no visit has taken it back into use',
    callsFor: 'quicker cleaning',
  },
  filling: {
    text: 'empty: line still filling',
    short: 'empty, line filling',
    holds: 'nothing: no plant has ever been ready to come in',
    callsFor: 'nothing: it goes by itself',
  },
  untended: {
    text: 'empty: ready plants wait upstream',
    short: 'empty, ready ones wait',
    holds: 'nothing, although a ready plant of the stage before waits for a visit',
    callsFor: 'visits nearer to each other',
  },
  unsupplied: {
    text: 'empty: nothing ready to come',
    short: 'empty, nothing ready',
    holds: 'nothing, and nothing upstream is ready to come',
    callsFor: 'more seeds or a denser cadence, or fewer lit channels',
  },
};
