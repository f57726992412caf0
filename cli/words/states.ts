/** What each state of a hole means to somebody who looks at it. */

import type { HoleState } from '../../sim/models/ledger.js';

/** `short`: in few words. */
export const STATE_WORDS: Readonly<Record<HoleState, Readonly<Record<'text' | 'short', string>>>> = {
  growing: { text: 'growing', short: 'growing' },
  dead: { text: 'dead or failed, not cleared yet', short: 'dead, not cleared' },
  unattended: { text: 'ready, nobody came by yet', short: 'ready, not seen yet' },
  blocked: { text: 'ready, no hole free further on', short: 'ready, no hole free' },
  held: { text: 'ready, not wanted yet', short: 'ready, not wanted' },
  cleaning: { text: 'being cleaned', short: 'being cleaned' },
  filling: { text: 'empty: line still filling', short: 'empty, line filling' },
  untended: { text: 'empty: ready plants wait upstream', short: 'empty, ready ones wait' },
  unsupplied: { text: 'empty: nothing ready to come', short: 'empty, nothing ready' },
};
