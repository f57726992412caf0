/** What several results say of the seasons that they come from. */

import { dateText } from '../words/dates.js';
import { fixed, SHARE } from '../words/numbers.js';
import { type Cell, figure, name, type Table, table } from './section.js';

/** Behind the number of seasons. */
export function stoppedEarly(partial: boolean): string {
  return partial ? ', stopped early: what follows is from these seasons only' : '';
}

/** `the 19 weeks from Mon 22 Feb 2027 on`. */
export function weeksFrom({ weeks, from }: { readonly weeks: number; readonly from: string }): string {
  return weeks === 1 ? 'the last week' : `the ${weeks} weeks from ${dateText(from)} on`;
}

/** A stage with what its hole-days are shares of. */
interface Told {
  readonly name: string;
  readonly holes: number;
  readonly hole_days: number;
}

/** Where the hole-days of each stage went. @param rows what they are called, and how many (null if they cannot be told) */
export function holeDayTable<Stage extends Told>(
  rows: readonly { readonly what: string; readonly of: (stage: Stage) => number | null }[],
  stages: readonly Stage[],
): Table {
  const share = (stage: Stage, days: number | null): Cell =>
    figure(days === null ? null : days / stage.hole_days, SHARE);
  return table(
    [
      ...rows.map(({ what, of }) => [what, ...stages.map((stage) => share(stage, of(stage)))]),
      ['holes', ...stages.map(({ holes }) => figure(holes, fixed(0)))],
      ['hole-days in all', ...stages.map(({ hole_days }) => figure(hole_days, fixed(0)))],
    ],
    { head: ['', ...stages.map((stage) => name(stage.name))] },
  );
}
