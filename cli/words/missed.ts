/** Missed sowings in a sentence: how many, what is sown, and what the other rule would sow. */

import type { MadeUpFor } from '../../sim/season/ahead/coming-sowings.js';
import { dateText } from './dates.js';
import { counted } from './numbers.js';

/** One sentence a visit, of all its crops. */
export function missedSowingSentences(sowings: readonly MadeUpFor[]): string[] {
  const dates = [...new Set(sowings.map(({ date }) => date))];
  return dates.map((date) => {
    const then = sowings.filter((one) => one.date === date);
    const sum = (of: (one: MadeUpFor) => number): number => then.reduce((all, one) => all + of(one), 0);
    const dropped = (one: MadeUpFor): boolean => one.rule === 'dropped';
    const missed = counted(
      sum((one) => one.missed),
      'sowing was missed',
      'sowings were missed',
    );
    const one = counted(
      sum((each) => each.one),
      'seed',
    );
    const listed = counted(
      sum((each) => (dropped(each) ? each.one : each.all)),
      'seed',
    );
    const other = counted(
      sum((each) => (dropped(each) ? each.all : each.one)),
      'seed',
    );
    const rule = then.every(dropped)
      ? `Only the latest is sown, ${listed}; with missed: made_up beside the seeds in the scenario all that fell due would be, ${other}.`
      : then.some(dropped)
        ? `By the rule of each crop ${listed} are sown; by the other one (missed in the scenario) ${other} would be.`
        : `All that fell due is sown as far as cells are free, ${listed}; with missed: dropped beside the seeds in the scenario only the latest would be, ${other}.`;
    const each = then.length === 1 ? `one is ${one}` : `one of each of ${then.length} crops is ${one}`;
    return `${dateText(date)}: ${missed}; ${each}. ${rule}`;
  });
}
