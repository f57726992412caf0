/** The words that options take, from the tables that check them. What takes numbers, dates or names is not here. */

import { WEEKDAYS } from '../../sim/models/dates.js';
import { ACTIONS } from '../../sim/season/log/rows.js';
import { ORDERS } from '../../sim/study/compare.js';
import { COST_KINDS } from '../../sim/study/search/candidates.js';

/** The date of this machine, for `--today`. */
export const NOW = 'now';

/** The shells in which commands can be completed. */
export const SHELLS = ['bash', 'zsh', 'fish'] as const;

export type Shell = (typeof SHELLS)[number];

/** What `--visits` takes beside weekdays, by command. */
export const VISIT_WORDS = { compare: ['daily', 'always'], search: ['daily'], new: ['daily'] } as const;

/** Words of which one is taken, or a list of several. */
export interface Taken {
  readonly one: readonly string[];
  /** Words that are joined by these signs, such as mon+thu,tue. */
  readonly several?: { readonly words: readonly string[]; readonly signs: string };
}

const WEEKDAY_LISTS = { words: WEEKDAYS, signs: '+,' };

/**
 * @param place an option, such as `--by`, or an argument, such as `action`
 * @returns null if it takes no words
 */
export function wordsTaken(command: string, place: string): Taken | null {
  switch (place) {
    case 'shell':
      return { one: SHELLS };
    case 'action':
      return { one: ACTIONS };
    case '--by':
      return { one: ORDERS };
    case '--least':
      return { one: COST_KINDS };
    case '--on':
      return { one: [], several: WEEKDAY_LISTS };
    case '--visits':
      return { one: VISIT_WORDS[command as keyof typeof VISIT_WORDS] ?? [], several: WEEKDAY_LISTS };
    case '--today':
      return { one: [NOW] };
    default:
      return null;
  }
}
