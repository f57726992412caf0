/** What several results say of the seasons that they come from. */

import { dateText } from '../words/dates.js';

/** Behind the number of seasons. */
export function stoppedEarly(partial: boolean): string {
  return partial ? ', stopped early: what follows is from these seasons only' : '';
}

/** `the 19 weeks from Mon 22 Feb 2027 on`. */
export function weeksFrom({ weeks, from }: { readonly weeks: number; readonly from: string }): string {
  return weeks === 1 ? 'the last week' : `the ${weeks} weeks from ${dateText(from)} on`;
}
